import { ChoiceField, TextField } from '#app/ui/field.tsx';
import type { TermsView } from '#db/queries/terms-view.ts';
import type { Override } from '../sale-fields.ts';

interface OverridesProps {
  readonly goods: TermsView['goods'];
  readonly overrides: readonly Override[];
  /** True where a sheet is out and nothing is changed any more. */
  readonly stands: boolean;
  readonly change: (overrides: readonly Override[]) => void;
  readonly errorOf: (field: string) => string | undefined;
}

/** Goods that pay a commission of their own. */
export function Overrides({ goods, overrides, stands, change, errorOf }: OverridesProps) {
  const free = goods.filter((one) => !overrides.some((other) => other.goods === one.goods));
  const put = (next: Override) => change(overrides.map((one) => (one.goods === next.goods ? next : one)));
  return (
    <fieldset className="sale-part">
      <legend>Goods with a commission of their own</legend>
      {overrides.map((one) => {
        const name = goods.find(({ goods: code }) => code === one.goods)?.name ?? one.goods;
        const error = (who: string) => errorOf(`sale.terms.commission_overrides.${one.goods}.${who}`);
        return (
          <div className="fields" key={one.goods}>
            <TextField
              label={`${name}: members pay, %`}
              inputMode="decimal"
              error={error('member')}
              value={one.member}
              onChange={(event) => put({ ...one, member: event.target.value })}
            />
            <TextField
              label={`${name}: guests pay, %`}
              inputMode="decimal"
              error={error('guest')}
              value={one.guest}
              onChange={(event) => put({ ...one, guest: event.target.value })}
            />
            {!stands && (
              <button type="button" onClick={() => change(overrides.filter((other) => other !== one))}>
                {name} as all others
              </button>
            )}
          </div>
        );
      })}
      {stands && overrides.length === 0 && <p>None.</p>}
      {!stands && free.length > 0 && (
        <ChoiceField
          label="Add goods"
          hint="Such as less for bobcat."
          value=""
          onChange={(event) => change([...overrides, { goods: event.target.value, member: '', guest: '' }])}
        >
          <option value="">choose</option>
          {free.map(({ goods: code, name }) => (
            <option key={code} value={code}>
              {name}
            </option>
          ))}
        </ChoiceField>
      )}
    </fieldset>
  );
}
