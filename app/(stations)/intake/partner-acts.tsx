'use client';

import { useState } from 'react';
import { AskOne } from '#app/(stations)/give-forms.tsx';
import { Act, Form, SubmitActs } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { DuesTaken } from '#db/person/dues-queries.ts';
import type { SellerPartner } from '#db/seller/queries.ts';
import { shortDate } from '#lib/date/date.ts';
import { DUES_HOW, DuesFieldset, type DuesTyped, duesOf, duesSaid, notChanged } from './dues-fields.tsx';
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
        <Act words={`Take dues of ${partner.name}`} act={() => setOpen('dues')} />
        <Act words={`Particulars of ${partner.name}`} act={() => setOpen('particulars')} />
      </div>
    </>
  );
}

interface TakeDuesProps extends Omit<PartnerActsProps, 'dues'> {
  readonly onDone: () => void;
}

function TakeDues({ table, sellerNo, partner, onDone }: TakeDuesProps) {
  const { name, personId } = partner;
  const [typed, setTyped] = useState<DuesTyped>({ ...duesOf(table, partner.typed.memberUntil), how: 'cash' });
  const { give, busy, refusal, elsewhere, errorOf } = useGive('intake');
  const take = async (counts: boolean | null = null) => {
    // Where none are said, the book asks how they are paid.
    const input = { saleId: table.saleId, personId, sellerNo, counts, ...(duesSaid(typed) ?? typed) };
    const reply = await give('dues.take', input, `Dues of ${name}`);
    if (reply.ok) onDone();
  };
  return (
    <Form onEntered={() => void take()} busy={busy} wrong={elsewhere} aria-label={`Take dues of ${name}`}>
      <DuesFieldset name={name} typed={typed} onChange={setTyped} errorOf={errorOf} />
      <SubmitActs label="Take the dues" main>
        {refusal?.field === 'counts' && <Act words="They count at this sale" act={() => void take(true)} />}
        {refusal?.field === 'counts' && <Act words="Take the dues only" act={() => void take(false)} />}
        <Act words="Take none" act={onDone} />
      </SubmitActs>
    </Form>
  );
}

/** Dues that were taken, and the way back where that was a mistake. */
function DuesLine({ dues, name }: { readonly dues: DuesTaken; readonly name: string }) {
  const { duesId, amount, how, memberUntil, unchanged } = dues;
  return (
    <div>
      <p>
        Dues taken: {amount} {DUES_HOW[how]}, paid until {shortDate(memberUntil)}. {notChanged(unchanged)}
      </p>
      <TakeDuesBack {...{ duesId, name }} />
    </div>
  );
}

interface TakeDuesBackProps {
  readonly duesId: number;
  readonly name: string;
  readonly onDone?: () => void;
}

export function TakeDuesBack({ duesId, name, onDone }: TakeDuesBackProps) {
  const [open, setOpen] = useState(false);
  if (!open) {
    return (
      <div className="acts">
        <Act words="Take the dues back" act={() => setOpen(true)} />
      </div>
    );
  }
  return (
    <AskOne
      aria-label={`Take the dues of ${name} back`}
      station="intake"
      command="dues.void"
      inputOf={(reason) => ({ duesId, reason })}
      asks={{ label: 'Why they are taken back', autoFocus: true }}
      act="Take them back"
      entry={`Dues of ${name} taken back`}
      {...(onDone && { onDone })}
      beside={<Act words="Leave them" act={() => setOpen(false)} />}
    />
  );
}
