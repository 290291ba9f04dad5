import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
import { emptyTyped, hintOf } from '#lib/field/fields.ts';
import { KIND } from '#lib/field/kinds.ts';
import { BYS } from '#lib/lot/fields.ts';
import type { By } from '#lib/sale/facts.ts';
import { STARTING_GOODS } from '#lib/sale/goods.ts';
import { GOODS_FIELDS, GOODS_QUESTIONS, type GoodsAsTyped } from '#lib/sale/goods-fields.ts';

const BY_WORDS: Readonly<Record<By, string>> = {
  piece: 'by the piece, times the count',
  lot: 'by the lot',
  lb: 'by the pound',
  oz: 'by the ounce',
};

interface GoodsFieldsProps {
  readonly goods: GoodsAsTyped;
  readonly change: (goods: GoodsAsTyped) => void;
  readonly errorOf: (field: string) => string | undefined;
  /** True for goods that the book does not have yet: only then is their short name asked. */
  readonly isNew?: boolean;
}

/** What is asked of one kind of goods. */
export function GoodsFields({ goods, change, errorOf, isNew = false }: GoodsFieldsProps) {
  return (
    <div className="fields">
      {GOODS_QUESTIONS.map((name) => {
        const { label } = GOODS_FIELDS[name];
        const hint = hintOf(GOODS_FIELDS[name]);
        const error = errorOf(name);
        if (name === 'goods' && !isNew) return null;
        if (name === 'by') {
          return (
            <ChoiceField
              key={name}
              {...{ label, hint, error }}
              value={goods.by}
              onPick={(value) => change({ ...goods, by: value as By })}
            >
              {BYS.map((by) => (
                <option key={by} value={by}>
                  {BY_WORDS[by]}
                </option>
              ))}
            </ChoiceField>
          );
        }
        if (name === 'exportTag') {
          return (
            <div key={name} className="field">
              {error && <span className="field-error">{error}</span>}
              <CheckField
                label={label}
                checked={goods.exportTag}
                onChange={() => change({ ...goods, exportTag: !goods.exportTag })}
              />
            </div>
          );
        }
        return (
          <TextField
            key={name}
            {...{ label, hint, error }}
            inputMode={name === 'seasonLimit' ? 'numeric' : undefined}
            value={goods[name]}
            onText={(text) => change({ ...goods, [name]: text })}
          />
        );
      })}
    </div>
  );
}

// Goods as they are typed on a screen, and as the commands take them.

export const NO_GOODS: GoodsAsTyped = { ...emptyTyped(GOODS_FIELDS), by: 'piece' };

/** The starting list, with no sizes, grades, codes or limits: those are the association's own. */
export const START_GOODS: readonly GoodsAsTyped[] = STARTING_GOODS.map((kind) => ({ ...NO_GOODS, ...kind }));

/** The input of the goods' commands. A limit that is no whole number goes as it was typed, for the book to refuse. */
export function goodsInputOf({ seasonLimit, sizes, grades, ...rest }: GoodsAsTyped) {
  return {
    ...rest,
    seasonLimit: seasonLimit === '' ? null : wholeNumber(seasonLimit),
    sizes: listOf(sizes),
    grades: listOf(grades),
  };
}

function listOf(typed: string): string[] {
  const read = KIND.wordList.read(typed);
  return read.ok ? read.value : [];
}
