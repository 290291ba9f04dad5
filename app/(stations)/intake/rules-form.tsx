'use client';

import { useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Form, fieldsOver, SubmitActs } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { shortDate } from '#lib/date/date.ts';

interface RulesFormProps {
  readonly saleId: number;
  readonly licenceRequired: boolean;
  readonly duesUntil: string | null;
}

/** The sale's setting for licences and dues, which the office keeps. */
export function RulesForm({ saleId, licenceRequired, duesUntil }: RulesFormProps) {
  const [typed, setTyped] = useState({ licenceRequired, duesUntil: duesUntil === null ? '' : shortDate(duesUntil) });
  const [kept, setKept] = useState(false);
  const { give, busy, elsewhere, errorOf } = useGive('office');
  const keep = async () => {
    const reply = await give('intake.rules', { saleId, ...typed }, 'Rules of the table');
    setKept(reply.ok);
  };
  const change = (over: Partial<typeof typed>) => setTyped({ ...typed, ...over });
  return (
    <details className="more">
      <summary>Rules of the table: licences, dues</summary>
      <Form onEntered={keep} busy={busy} done={kept && 'Kept.'} wrong={elsewhere} aria-label="Rules of the table">
        <CheckField
          label="Nobody sells with an expired licence or without one"
          checked={typed.licenceRequired}
          onTick={(licenceRequired) => change({ licenceRequired })}
        />
        <p className="small">
          A walk-in at the Till then shows a license too. What a license allows is the agency’s to judge.
        </p>
        <div className="fields">
          <TextField
            label="Dues taken here are paid until"
            hint="Empty: a year from the day of the sale"
            {...fieldsOver(typed, change, errorOf)('duesUntil')}
          />
        </div>
        <SubmitActs label="Keep the rules" />
      </Form>
    </details>
  );
}
