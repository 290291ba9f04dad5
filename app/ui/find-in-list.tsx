import { TextField } from '#app/ui/field.tsx';

interface FindInListProps {
  readonly saleId: number;
  /** The page that lists them. */
  readonly path: string;
  readonly label: string;
  readonly find: string;
}

/** A box above a long list; it works without a script. */
export function FindInList({ saleId, path, label, find }: FindInListProps) {
  return (
    <form className="find-in-list no-print" method="get" action={path}>
      <input type="hidden" name="sale" value={saleId} />
      <TextField label={label} name="find" defaultValue={find} key={find} />
      <button type="submit">Find</button>
    </form>
  );
}
