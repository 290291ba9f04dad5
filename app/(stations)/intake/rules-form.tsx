'use client';

import { useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';

interface RulesFormProps {
  readonly saleId: number;
  readonly licenceRequired: boolean;
  readonly duesUntil: string | null;
}

/** The sale's setting for licences and dues, which the office keeps. */
export function RulesForm({ saleId, licenceRequired, duesUntil }: RulesFormProps) {
  const [typed, setTyped] = useState({ licenceRequired, duesUntil: duesUntil ?? '' });
  const [kept, setKept] = useState(false);
  const { give, busy, refusal, errorOf } = useGive('office');
  const keep = async () => {
    const reply = await give('intake.rules', { saleId, ...typed }, 'Rules of the table');
    setKept(reply.ok);
  };
  const error = errorOf('duesUntil');
  return (
    <details className="more">
      <summary>Rules of the table: licences, dues</summary>
      <Form onEntered={keep} busy={busy} aria-label="Rules of the table">
        {kept && <Notice kind="done" title="Kept." />}
        {refusal && !error && <Notice kind="stop" title={refusal.message} />}
        <CheckField
          label="Nobody sells with an expired licence or without one"
          checked={typed.licenceRequired}
          onTick={(checked) => setTyped({ ...typed, licenceRequired: checked })}
        />
        <div className="fields">
          <TextField
            label="Dues taken here are paid until"
            hint="Year-month-day; empty: a year from the day of the sale"
            error={error}
            value={typed.duesUntil}
            onText={(text) => setTyped({ ...typed, duesUntil: text })}
          />
        </div>
        <SubmitActs label="Keep the rules" />
      </Form>
    </details>
  );
}
