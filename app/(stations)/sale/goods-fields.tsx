import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import { BYS, type By } from '#lib/facts.ts';
import type { TypedGoods } from './goods-typed.ts';

const BY_WORDS: Readonly<Record<By, string>> = {
  piece: 'by the piece, times the count',
  lot: 'by the lot',
  lb: 'by the pound',
  oz: 'by the ounce',
};

type Text = Exclude<keyof TypedGoods, 'by' | 'exportTag'>;

const TEXTS: readonly { readonly name: Text; readonly label: string; readonly hint: string }[] = [
  { name: 'tagSpeciesCode', label: 'Species code', hint: 'As it stands on the tags, such as BOB.' },
  { name: 'scientificName', label: 'Scientific name', hint: 'For the return to the agency.' },
  { name: 'seasonLimit', label: 'Season limit', hint: 'The most pieces a licence may bring. Empty for none.' },
  { name: 'sizes', label: 'Sizes', hint: 'Your own words, with commas: S, M, L.' },
  { name: 'grades', label: 'Grades', hint: 'Your own words, with commas: I, II, III.' },
  { name: 'caution', label: 'Caution', hint: 'Said at the table for green goods and carcasses.' },
];

interface GoodsFieldsProps {
  readonly goods: TypedGoods;
  readonly change: (goods: TypedGoods) => void;
  readonly errorOf: (field: string) => string | undefined;
  /** True for goods that the book does not have yet: only then is their short name asked. */
  readonly isNew?: boolean;
}

/** What is asked of one kind of goods. */
export function GoodsFields({ goods, change, errorOf, isNew = false }: GoodsFieldsProps) {
  const text = (name: Text, label: string, hint: string) => (
    <TextField
      key={name}
      {...{ label, hint }}
      error={errorOf(name)}
      inputMode={name === 'seasonLimit' ? 'numeric' : undefined}
      value={goods[name]}
      onChange={(event) => change({ ...goods, [name]: event.target.value })}
    />
  );
  return (
    <div className="fields">
      {isNew && text('goods', 'Short name', 'For lists and files, such as fox-red. It cannot be changed later.')}
      {text('name', 'Name', 'As it is called at the tables.')}
      <ChoiceField
        label="Sold"
        hint="What a price stands for."
        error={errorOf('by')}
        value={goods.by}
        onChange={(event) => change({ ...goods, by: event.target.value as By })}
      >
        {BYS.map((by) => (
          <option key={by} value={by}>
            {BY_WORDS[by]}
          </option>
        ))}
      </ChoiceField>
      {TEXTS.map(({ name, label, hint }) => text(name, label, hint))}
      <div className="field">
        {errorOf('exportTag') && <span className="field-error">{errorOf('exportTag')}</span>}
        <CheckField
          label="Needs an export tag a piece"
          checked={goods.exportTag}
          onChange={() => change({ ...goods, exportTag: !goods.exportTag })}
        />
      </div>
    </div>
  );
}
