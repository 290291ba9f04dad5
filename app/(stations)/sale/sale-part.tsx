import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import { SALE_FIELDS, type SaleAsTyped, type SalePart, saleField, TERM_FIELDS } from '#lib/sale/terms-fields.ts';
import { questionsOf, refusedAs } from './sale-fields.ts';

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
