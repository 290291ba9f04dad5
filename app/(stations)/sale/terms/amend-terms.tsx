'use client';

import { useState } from 'react';
import { type Override, SalePartFields, saleAsTyped } from '#app/(stations)/sale/sale-fields.tsx';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Act, Form, fieldsOver, Options, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { TermsView } from '#db/sale/views.ts';
import type { Stage } from '#lib/sale/facts.ts';
import type { SalePart } from '#lib/sale/terms-fields.ts';

const PARTS: readonly SalePart[] = ['sale', 'commission', 'fees', 'buyers'];

interface AmendTermsProps {
  readonly saleId: number;
  readonly stage: Stage;
  readonly view: TermsView;
}

/** The sale and its terms as they stand, to be changed until the first sheet is out. */
export function AmendTerms({ saleId, stage, view }: AmendTermsProps) {
  const [typed, type] = useState(view.typed);
  const [overrides, setOverrides] = useState(view.overrides);
  const [reason, setReason] = useState('');
  const { give, busy, refusal, errorOf } = useGive('office');
  const isOpen = view.stands === null;
  const amend = () => give('sale.amend', { saleId, sale: saleAsTyped(typed, overrides), reason }, 'Terms');
  return (
    <Form className="sheet sale-form" onEntered={amend}>
      <h1>The sale and its terms</h1>
      {view.stands !== null && <Notice kind="plain" title={view.stands} />}
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <fieldset disabled={!isOpen}>
        <legend className="visually-hidden">The sale and its terms</legend>
        {PARTS.map((part) => (
          <SalePartFields key={part} part={part} form={{ typed, type, errorOf }} />
        ))}
        <Overrides {...{ goods: view.goods, stands: !isOpen, overrides, errorOf }} change={setOverrides} />
        {stage !== 'planned' && isOpen && (
          <TextField
            label="Why is it changed?"
            hint="The log keeps it."
            error={errorOf('reason')}
            value={reason}
            onText={setReason}
          />
        )}
        {isOpen && <SubmitActs label="Save the terms" main disabled={busy} />}
      </fieldset>
    </Form>
  );
}

interface OverridesProps {
  readonly goods: TermsView['goods'];
  readonly overrides: readonly Override[];
  /** True where a sheet is out and nothing is changed any more. */
  readonly stands: boolean;
  readonly change: (overrides: readonly Override[]) => void;
  readonly errorOf: (field: string) => string | undefined;
}

/** Goods that pay a commission of their own. */
function Overrides({ goods, overrides, stands, change, errorOf }: OverridesProps) {
  const free = goods.filter((one) => !overrides.some((other) => other.goods === one.goods));
  const put = (next: Override) => change(overrides.map((one) => (one.goods === next.goods ? next : one)));
  return (
    <fieldset className="sale-part">
      <legend>Goods with a commission of their own</legend>
      {overrides.map((one) => {
        const name = goods.find(({ goods: code }) => code === one.goods)?.name ?? one.goods;
        const error = (who: string) => errorOf(`sale.terms.commission_overrides.${one.goods}.${who}`);
        const field = fieldsOver(one, (over) => put({ ...one, ...over }), error);
        return (
          <div className="fields" key={one.goods}>
            <TextField label={`${name}: members pay, %`} inputMode="decimal" {...field('member')} />
            <TextField label={`${name}: guests pay, %`} inputMode="decimal" {...field('guest')} />
            {!stands && (
              <Act words={`${name} as all others`} act={() => change(overrides.filter((other) => other !== one))} />
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
          onPick={(value) => change([...overrides, { goods: value, member: '', guest: '' }])}
        >
          <option value="">choose</option>
          <Options of={free.map(({ goods: code, name }) => [code, name])} />
        </ChoiceField>
      )}
    </fieldset>
  );
}
