'use client';

import { useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { DuesTaken } from '#db/person/dues-queries.ts';
import type { SellerPartner } from '#db/seller/queries.ts';
import { DUES_HOW, DuesFieldset, duesOf, duesSaid, notChanged } from './dues-fields.tsx';
import { PersonForm } from './person-form.tsx';
import type { TableRules } from './standings.tsx';

interface PartnerActsProps {
  readonly table: TableRules;
  readonly sellerNo: number;
  readonly partner: SellerPartner;
  readonly dues: readonly DuesTaken[];
}

/** What the table does for somebody behind a number: take their dues, put their particulars right. */
export function PartnerActs({ table, sellerNo, partner, dues }: PartnerActsProps) {
  const [open, setOpen] = useState<'dues' | 'particulars'>();
  const close = () => setOpen(undefined);
  if (open === 'particulars') return <PersonForm known={partner} onDone={close} onLeave={close} />;
  if (open === 'dues') return <TakeDues {...{ table, sellerNo, partner }} onDone={close} />;
  return (
    <>
      {dues.map((one) => (
        <DuesLine key={one.duesId} dues={one} name={partner.name} />
      ))}
      <div className="acts">
        <button type="button" onClick={() => setOpen('dues')}>
          Take dues of {partner.name}
        </button>
        <button type="button" onClick={() => setOpen('particulars')}>
          Particulars of {partner.name}
        </button>
      </div>
    </>
  );
}

interface TakeDuesProps extends Omit<PartnerActsProps, 'dues'> {
  readonly onDone: () => void;
}

function TakeDues({ table, sellerNo, partner, onDone }: TakeDuesProps) {
  const { name, personId } = partner;
  const [typed, setTyped] = useState({ ...duesOf(table, partner.typed.memberUntil), how: 'cash' } as ReturnType<
    typeof duesOf
  >);
  const { give, busy, elsewhere, errorOf } = useGive('intake');
  const take = async () => {
    // Where none are said, the book asks how they are paid.
    const input = { saleId: table.saleId, personId, sellerNo, ...(duesSaid(typed) ?? typed) };
    const reply = await give('dues.take', input, `Dues of ${name}`);
    if (reply.ok) onDone();
  };
  return (
    <Form onEntered={take} busy={busy} wrong={elsewhere} aria-label={`Take dues of ${name}`}>
      <DuesFieldset name={name} typed={typed} onChange={setTyped} errorOf={errorOf} />
      <SubmitActs label="Take the dues" main>
        <button type="button" onClick={onDone}>
          Take none
        </button>
      </SubmitActs>
    </Form>
  );
}

/** Dues that were taken, and the way back where that was a mistake. */
function DuesLine({
  dues: { duesId, amount, how, memberUntil, unchanged },
  name,
}: {
  readonly dues: DuesTaken;
  readonly name: string;
}) {
  const [reason, setReason] = useState<string>();
  const { give, busy, refusal, errorOf } = useGive('intake');
  const takeBack = async () => {
    if (reason !== undefined) await give('dues.void', { duesId, reason }, `Dues of ${name} taken back`);
  };
  const atField = errorOf('reason');
  return (
    <div>
      <p>
        Dues taken: {amount} {DUES_HOW[how]}, paid until {memberUntil}. {notChanged(unchanged)}
      </p>
      {refusal && !atField && <Notice kind="stop" title={refusal.message} />}
      {reason === undefined ? (
        <div className="acts">
          <button type="button" onClick={() => setReason('')}>
            Take the dues back
          </button>
        </div>
      ) : (
        <Form onEntered={takeBack} busy={busy} aria-label={`Take the dues of ${name} back`}>
          <TextField label="Why they are taken back" error={atField} value={reason} autoFocus onText={setReason} />
          <SubmitActs label="Take them back">
            <button type="button" onClick={() => setReason(undefined)}>
              Leave them
            </button>
          </SubmitActs>
        </Form>
      )}
    </div>
  );
}
