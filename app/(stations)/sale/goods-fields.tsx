import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import { fieldsOver, Options } from '#app/ui/form.tsx';
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
  const field = fieldsOver(goods, (over) => change({ ...goods, ...over }), errorOf);
  return (
    <div className="fields">
      {GOODS_QUESTIONS.map((name) => {
        const { label } = GOODS_FIELDS[name];
        const hint = hintOf(GOODS_FIELDS[name]);
        if (name === 'goods' && !isNew) return null;
        if (name === 'by') {
          return (
            <ChoiceField key={name} {...{ label, hint, ...field('by') }}>
              <Options of={BYS.map((by) => [by, BY_WORDS[by]])} />
            </ChoiceField>
          );
        }
        if (name === 'exportTag') {
          const error = errorOf(name);
          return (
            <div key={name} className="field">
              {error && <span className="field-error">{error}</span>}
              <CheckField
                label={label}
                checked={goods.exportTag}
                onTick={(exportTag) => change({ ...goods, exportTag })}
              />
            </div>
          );
        }
        return (
          <TextField
            key={name}
            inputMode={name === 'seasonLimit' ? 'numeric' : undefined}
            {...{ label, hint, ...field(name) }}
          />
        );
      })}
    </div>
  );
}

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
