import { TextField } from '#app/ui/field.tsx';

interface AskNumberProps {
  readonly typed: string;
  readonly wrong: boolean;
}

/** A plain form: it works on any phone, also before the page's own code is there. */
export function AskNumber({ typed, wrong }: AskNumberProps) {
  return (
    <form action="/board/seller" className="fields">
      <TextField
        label="Seller number"
        name="no"
        inputMode="numeric"
        defaultValue={typed}
        error={wrong ? 'Enter the seller number in digits, as it stands on the ticket.' : undefined}
      />
      <div>
        <button type="submit" className="act">
          Show its lots
        </button>
      </div>
    </form>
  );
}
