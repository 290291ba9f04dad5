'use client';

import { useState } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Form, Options, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { DrawerView } from '#db/drawer/queries.ts';
import { countCash, parseBills } from '#lib/drawer/cash.ts';
import { showMoney } from '#lib/money/money.ts';

interface DrawerFormProps {
  readonly saleId: number;
  readonly open: boolean;
  readonly denominations: DrawerView['denominations'];
}

/** What can be done with an open drawer, as the person says it. */
const ACTS = [
  { kind: 'counted', words: 'Count it', act: 'Record the count' },
  { kind: 'added', words: 'Put money in', act: 'Record what was put in' },
  { kind: 'taken', words: 'Take money out', act: 'Record what was taken out' },
  { kind: 'closed', words: 'Count and close it', act: 'Close the drawer' },
] as const;

const OPEN = { kind: 'opened', act: 'Open the drawer' } as const;

const BESIDE = [
  ['checks', 'Checks'],
  ['cards', 'Cards'],
  ['other', 'Other'],
] as const;

const NOT_COUNTED = { hint: 'Empty where it is not counted', inputMode: 'decimal' } as const;

/** Opens the drawer with its float, or counts what lies in it, bill by bill. */
export function DrawerForm({ saleId, open, denominations }: DrawerFormProps) {
  const [kind, setKind] = useState<(typeof ACTS)[number]['kind']>('counted');
  const [pieces, setPieces] = useState<Readonly<Record<string, string>>>({});
  const [done, setDone] = useState<string>();
  const { give, busy, elsewhere, errorOf } = useGive('till');
  const { texts, field, reset } = useTexts({ checks: '', cards: '', other: '', note: '' }, errorOf);
  const act = open ? (ACTS.find((one) => one.kind === kind) ?? ACTS[0]) : OPEN;
  const cash = countCash(
    denominations.flatMap(({ value, cents }) => {
      const count = parseBills(pieces[value] ?? '');
      return count.ok ? [{ denominationCents: cents, pieces: count.value }] : [];
    }),
  );
  const record = async () => {
    const list = denominations.map(({ value }) => ({ denomination: value, pieces: pieces[value] ?? '' }));
    const { note, ...beside } = texts;
    const input = { saleId, kind: act.kind, pieces: list, note, ...(open ? beside : {}) };
    const reply = await give('drawer.record', input, 'The drawer');
    setDone(reply.ok ? `Recorded: ${showMoney(cash)} in cash.` : undefined);
    if (!reply.ok) return;
    setPieces({});
    reset();
  };
  return (
    <Form onEntered={record} busy={busy} done={done} wrong={elsewhere} aria-label="Drawer">
      {open ? (
        <ChoiceField label="What to do" value={kind} onPick={(value) => setKind(value as typeof kind)}>
          <Options of={ACTS.map((one) => [one.kind, one.words])} />
        </ChoiceField>
      ) : (
        <p>The drawer is not open. Count what lies in it to begin with, and open it.</p>
      )}
      <fieldset className="denominations">
        <legend>How many of each bill and coin</legend>
        {denominations.map(({ value, words }, at) => (
          <TextField
            key={value}
            label={words}
            inputMode="numeric"
            error={errorOf(`pieces.${at}.pieces`)}
            value={pieces[value] ?? ''}
            onText={(text) => setPieces({ ...pieces, [value]: text })}
          />
        ))}
      </fieldset>
      <p>Cash</p>
      <output className="figure-large">{showMoney(cash)}</output>
      <div className="fields">
        {open && BESIDE.map(([name, label]) => <TextField key={name} {...{ label, ...NOT_COUNTED, ...field(name) }} />)}
        <TextField label="Note" {...field('note')} />
      </div>
      <SubmitActs label={act.act} main />
    </Form>
  );
}
