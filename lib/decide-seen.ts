/** An act on everybody is done to as many as the person who gives it has seen, and to nobody else. */
import { accept, type Result, refuse } from '#lib/result.ts';

export interface SeenCount {
  /** How many the act would make now. */
  readonly now: number;
  /** How many the person has seen; null where nobody has looked. */
  readonly seen: number | null;
  /** What they are, such as `sheet`. */
  readonly what: string;
}

export function decideSeen({ now, seen, what }: SeenCount): Result<null> {
  if (seen === now) return accept(null);
  const words = now === 1 ? `1 ${what}` : `${now} ${what}s`;
  if (seen === null)
    return refuse('needs_answer', `This makes ${words}. Look at them first, and say how many.`, 'seen');
  return refuse('conflict', `It is now ${words}, not ${seen}. Look at them and answer again.`, 'seen');
}
