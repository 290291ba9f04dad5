'use client';

import { useState } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Form, fieldsOver, Options, SubmitActs } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { Fate } from '#lib/sale/facts.ts';

interface NotPaidForProps {
  readonly saleId: number;
  readonly buyerNo: number;
  /** The lots that still lie here. */
  readonly lots: readonly string[];
  /** Whether lots are still called, so that one can be offered again. */
  readonly selling: boolean;
}

const FATES: Readonly<Record<Fate, string>> = {
  seller: 'it goes back to the seller',
  association: 'the association keeps it',
  again: 'it is offered again',
};
const EVERY = 'all';
const NOTHING = { lots: '', fate: 'seller' as Fate, reason: '' };

/** Says that a lot, or all that still lie here, will never be paid for. Folded away, because it is seldom wanted. */
export function NotPaidFor(props: NotPaidForProps) {
  return (
    <details className="more">
      <summary>Not paid for</summary>
      <p>
        For a buyer who never pays. The lot leaves the bill, and its seller is charged nothing. What has been paid stays
        on the account.
      </p>
      <NotPaidForm {...props} />
    </details>
  );
}

function NotPaidForm({ saleId, buyerNo, lots, selling }: NotPaidForProps) {
  const [typed, setTyped] = useState(NOTHING);
  const { give, busy, elsewhere, errorOf } = useGive('till');
  const change = (part: Partial<typeof NOTHING>) => setTyped({ ...typed, ...part });
  const field = fieldsOver(typed, change, errorOf);
  const every: [string, string][] = lots.length > 1 ? [[EVERY, `all ${lots.length} that are here`]] : [];
  // A lot that has gone meanwhile is no longer offered.
  const which = typed.lots === EVERY || lots.includes(typed.lots) ? typed.lots : (lots[0] ?? '');
  const fates = (Object.keys(FATES) as Fate[]).filter((fate) => selling || fate !== 'again');
  const save = async () => {
    const { fate, reason } = typed;
    const named = which === EVERY ? [...lots] : [which];
    const input = { saleId, buyerNo, lots: named, fate, reason };
    const reply = await give('outcome.unpaid', input, `Not paid for by buyer ${buyerNo}`);
    if (reply.ok) setTyped(NOTHING);
  };
  return (
    <Form onEntered={save} busy={busy} wrong={elsewhere} aria-label="Not paid for">
      <div className="fields">
        <ChoiceField label="Lot" {...field('lots')} value={which} onPick={(value) => change({ lots: value })}>
          <Options of={[...lots.map((lotNo): [string, string] => [lotNo, lotNo]), ...every]} />
        </ChoiceField>
        <ChoiceField label="The fur" {...field('fate')} onPick={(value) => change({ fate: value as Fate })}>
          <Options of={fates.map((fate) => [fate, FATES[fate]])} />
        </ChoiceField>
        <TextField label="Why" hint="Such as: the check came back, and nobody answers" {...field('reason')} />
      </div>
      <SubmitActs label="Put down as not paid for" />
    </Form>
  );
}
