import { TextField } from '#app/ui/field.tsx';

const WRONG = 'This code is not good, or not any more: ask the office for a new one.';

/** Where a one-time code is typed. */
export function CodeForm({ wrong }: { readonly wrong: boolean }) {
  return (
    <form method="post" action="/prices/own/enter" className="sheet">
      <p>
        What your own goods brought over the years, and your settlement sheets. The office gives you a code; it opens
        this page once, for you alone.
      </p>
      <div className="fields">
        <TextField
          label="Code from the office"
          name="code"
          hint="Twelve letters and digits, such as ABCD-EFGH-2345"
          error={wrong ? WRONG : undefined}
          autoCapitalize="characters"
          maxLength={40}
          wide
          required
        />
      </div>
      <p className="acts">
        <button type="submit" className="act">
          Show my goods
        </button>
      </p>
    </form>
  );
}
