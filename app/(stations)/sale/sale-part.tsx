import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import { type ChosenSale, SALE_FIELDS, type SalePart, type TypedSale } from './sale-fields.ts';

const TITLES: Readonly<Record<SalePart, string>> = {
  sale: 'When, where and how',
  commission: 'Commission',
  fees: 'Fees and dues',
  buyers: 'What buyers pay',
};

export interface SaleForm {
  readonly typed: TypedSale;
  readonly chosen: ChosenSale;
  readonly type: (typed: TypedSale) => void;
  readonly choose: (chosen: ChosenSale) => void;
  /** The sentence for a field, by the name that a refusal has for it. */
  readonly errorOf: (field: string) => string | undefined;
}

/** The questions of one part of a sale. */
export function SalePartFields({ part, form }: { readonly part: SalePart; readonly form: SaleForm }) {
  const { typed, chosen, type, choose, errorOf } = form;
  return (
    <fieldset className="sale-part">
      <legend>{TITLES[part]}</legend>
      <div className="fields">
        {SALE_FIELDS.filter((field) => field.part === part).map(({ name, label, hint, error, keypad }) => (
          <TextField
            key={name}
            {...{ label, hint }}
            error={errorOf(error)}
            inputMode={keypad ? 'decimal' : undefined}
            value={typed[name]}
            onChange={(event) => type({ ...typed, [name]: event.target.value })}
          />
        ))}
        {part === 'sale' && (
          <ChoiceField
            label="How it is sold"
            hint="At a called sale the hammer decides, at a written one the highest bid on paper."
            error={errorOf('sale.bidding')}
            value={chosen.bidding}
            onChange={(event) => choose({ ...chosen, bidding: event.target.value === 'sealed' ? 'sealed' : 'floor' })}
          >
            <option value="floor">called lots</option>
            <option value="sealed">written bids</option>
          </ChoiceField>
        )}
      </div>
      {part === 'commission' && (
        <CheckField
          label="Guests may sell too"
          checked={chosen.guestsMaySell}
          onChange={() => choose({ ...chosen, guestsMaySell: !chosen.guestsMaySell })}
        />
      )}
    </fieldset>
  );
}
