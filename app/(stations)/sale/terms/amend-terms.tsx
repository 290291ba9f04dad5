'use client';

import { useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Form } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { TermsView } from '#db/queries/terms-view.ts';
import type { Stage } from '#lib/facts.ts';
import type { SalePart } from '#lib/sale/terms-fields.ts';
import { saleAsTyped } from '../sale-fields.ts';
import { SalePartFields } from '../sale-part.tsx';
import { Overrides } from './overrides.tsx';

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
  const form = { typed, type, errorOf };
  const amend = () => give('sale.amend', { saleId, sale: saleAsTyped(typed, overrides), reason }, 'Terms');
  return (
    <Form className="sheet sale-form" onEntered={amend}>
      <h1>The sale and its terms</h1>
      {view.stands !== null && <Notice kind="plain" title={view.stands} />}
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <fieldset disabled={view.stands !== null}>
        <legend className="visually-hidden">The sale and its terms</legend>
        {PARTS.map((part) => (
          <SalePartFields key={part} part={part} form={form} />
        ))}
        <Overrides {...{ goods: view.goods, stands: view.stands !== null, overrides, errorOf }} change={setOverrides} />
        {stage !== 'planned' && view.stands === null && (
          <TextField
            label="Why is it changed?"
            hint="The log keeps it."
            error={errorOf('reason')}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        )}
        {view.stands === null && (
          <div className="acts">
            <button type="submit" className="act" disabled={busy}>
              Save the terms
            </button>
          </div>
        )}
      </fieldset>
    </Form>
  );
}
