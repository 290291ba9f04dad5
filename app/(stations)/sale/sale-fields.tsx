/** The questions about a sale and its terms as the form asks them: first, and again to amend. */
import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import { columnName, emptyTyped, pick, recordOf, typedCellsOf } from '#lib/field/fields.ts';
import {
  RATE_FIELDS,
  SALE_FIELDS,
  SALE_QUESTIONS,
  type SaleAsTyped,
  type SaleField,
  type SalePart,
  saleField,
  TERM_FIELDS,
} from '#lib/sale/terms-fields.ts';

export const START_TYPED: SaleAsTyped = {
  ...emptyTyped({ ...SALE_FIELDS, ...RATE_FIELDS, ...TERM_FIELDS }),
  ...recordOf(SALE_QUESTIONS, (name) => saleField(name).start),
  bidding: 'floor',
  leftBids: 'step',
};

function questionsOf(part: SalePart): readonly SaleField[] {
  return SALE_QUESTIONS.filter((name) => saleField(name).part === part);
}

/** The field that a refusal of the book names. */
export function refusedAs(name: SaleField): string {
  if (Object.hasOwn(SALE_FIELDS, name)) return `sale.${columnName(name)}`;
  if (Object.hasOwn(RATE_FIELDS, name)) return `sale.terms.commission.${name}`;
  return `sale.terms.${columnName(name).replace(/^no_sale_/, 'no_sale.')}`;
}

/** What is wrong with the typed text of some parts, by the field's name: what the book would say, before it is asked. */
export function mistakesIn(
  parts: readonly SalePart[],
  typed: SaleAsTyped,
): Readonly<Partial<Record<SaleField, string>>> {
  const wrong = parts.flatMap(questionsOf).flatMap((name) => {
    const read = saleField(name).kind.read(typed[name]);
    return read.ok ? [] : [[name, read.message] as const];
  });
  return Object.fromEntries(wrong);
}

export interface Override {
  readonly goods: string;
  readonly member: string;
  readonly guest: string;
}

/** The sale as the commands take it: figures stay as they were typed, for the book to read. */
export function saleAsTyped(typed: SaleAsTyped, overrides: readonly Override[]) {
  const { no_sale_flat: flat, no_sale_pct_of_minimum: pct_of_minimum, ...fees } = typedCellsOf(TERM_FIELDS, typed);
  const terms = {
    commission: pick(typed, ['member', 'guest']),
    commission_overrides: Object.fromEntries(overrides.map(({ goods, ...rates }) => [goods, rates])),
    ...fees,
    no_sale: { flat, pct_of_minimum },
  };
  return { ...typedCellsOf(SALE_FIELDS, typed), terms };
}

const TITLES: Readonly<Record<SalePart, string>> = {
  sale: 'When, where and how',
  commission: 'Commission',
  fees: 'Fees and dues',
  buyers: 'What buyers pay',
};

export interface SaleForm {
  readonly typed: SaleAsTyped;
  readonly type: (typed: SaleAsTyped) => void;
  /** The sentence for a field, by the name that a refusal has for it. */
  readonly errorOf: (field: string) => string | undefined;
}

/** The questions of one part of a sale. */
export function SalePartFields({ part, form }: { readonly part: SalePart; readonly form: SaleForm }) {
  const { typed, type, errorOf } = form;
  return (
    <fieldset className="sale-part">
      <legend>{TITLES[part]}</legend>
      <div className="fields">
        {questionsOf(part).map((name) => (
          <TextField
            key={name}
            label={saleField(name).label}
            hint={saleField(name).hint}
            error={errorOf(refusedAs(name))}
            inputMode={part === 'sale' ? undefined : 'decimal'}
            value={typed[name]}
            onText={(text) => type({ ...typed, [name]: text })}
          />
        ))}
        {part === 'sale' && (
          <ChoiceField
            label={SALE_FIELDS.bidding.label}
            hint={SALE_FIELDS.bidding.hint}
            error={errorOf('sale.bidding')}
            value={typed.bidding}
            onPick={(value) => type({ ...typed, bidding: value === 'sealed' ? 'sealed' : 'floor' })}
          >
            <option value="floor">called lots</option>
            <option value="sealed">written bids</option>
          </ChoiceField>
        )}
        {part === 'buyers' && (
          <ChoiceField
            label={TERM_FIELDS.leftBids.label}
            hint={TERM_FIELDS.leftBids.hint}
            value={typed.leftBids}
            onPick={(value) => type({ ...typed, leftBids: value === 'bid' ? 'bid' : 'step' })}
          >
            <option value="step">one step above the room’s bid</option>
            <option value="bid">at the bid itself</option>
          </ChoiceField>
        )}
      </div>
      {part === 'commission' && (
        <CheckField
          label={TERM_FIELDS.guestsMaySell.label}
          checked={typed.guestsMaySell}
          onChange={() => type({ ...typed, guestsMaySell: !typed.guestsMaySell })}
        />
      )}
    </fieldset>
  );
}
