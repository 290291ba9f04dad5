import { timeOfDay } from '#app/ui/local-time.tsx';

/** Over a board that may be out of date: what is shown is of this time. */
export function Silence({ since }: { readonly since: number }) {
  return (
    <p className="board-silence" role="status">
      No word from the server since {timeOfDay(since)}. What is shown is of that time.
    </p>
  );
}
