'use client';

import { type FormEvent, useState } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { DrawerView } from '#db/drawer/queries.ts';
import { countCash } from '#lib/drawer/cash.ts';
import { showMoney } from '#lib/money/money.ts';
import { parseCount } from '#lib/quantity/quantity.ts';
import { ACTS, OPEN } from './words.ts';

interface DrawerFormProps {
  readonly saleId: number;
  readonly open: boolean;
  readonly denominations: DrawerView['denominations'];
}

const BESIDE = { checks: 'Checks', cards: 'Cards', other: 'Other' } as const;
const EMPTY = { checks: '', cards: '', other: '', note: '' };

/** Opens the drawer with its float, or counts what lies in it, note by note. */
export function DrawerForm({ saleId, open, denominations }: DrawerFormProps) {
  const [kind, setKind] = useState<(typeof ACTS)[number]['kind']>('counted');
  const [pieces, setPieces] = useState<Readonly<Record<string, string>>>({});
  const [typed, setTyped] = useState(EMPTY);
  const [done, setDone] = useState<string>();
  const { give, busy, elsewhere, errorOf } = useGive('till');
  const act = open ? (ACTS.find((one) => one.kind === kind) ?? ACTS[0]) : OPEN;
  const cash = countCash(
    denominations.flatMap(({ value, cents }) => {
      const count = parseCount(pieces[value] ?? '');
      return count.ok ? [{ denominationCents: cents, pieces: count.value }] : [];
    }),
  );
  const record = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const list = denominations.map(({ value }) => ({ denomination: value, pieces: pieces[value] ?? '' }));
    const { note, ...beside } = typed;
    const input = { saleId, kind: act.kind, pieces: list, note, ...(open ? beside : {}) };
    const reply = await give('drawer.record', input, 'The drawer');
    setDone(reply.ok ? `Recorded: ${showMoney(cash)} in cash.` : undefined);
    if (!reply.ok) return;
    setPieces({});
    setTyped(EMPTY);
  };
  return (
    <form onSubmit={(event) => void record(event)} aria-label="Drawer">
      {done && <Notice kind="done" title={done} />}
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      {open ? (
        <ChoiceField label="What to do" value={kind} onChange={(event) => setKind(event.target.value as typeof kind)}>
          {ACTS.map(({ kind: one, words }) => (
            <option key={one} value={one}>
              {words}
            </option>
          ))}
        </ChoiceField>
      ) : (
        <p>The drawer is not open. Count what lies in it to begin with, and open it.</p>
      )}
      <fieldset className="denominations">
        <legend>How many of each note and coin</legend>
        {denominations.map(({ value, words }, at) => (
          <TextField
            key={value}
            label={words}
            inputMode="numeric"
            error={errorOf(`pieces.${at}.pieces`)}
            value={pieces[value] ?? ''}
            onChange={(event) => setPieces({ ...pieces, [value]: event.target.value })}
          />
        ))}
      </fieldset>
      <p>Cash</p>
      <output className="figure-large">{showMoney(cash)}</output>
      <div className="fields">
        {open &&
          Object.entries(BESIDE).map(([field, words]) => (
            <TextField
              key={field}
              label={words}
              hint="Empty where it is not counted"
              inputMode="decimal"
              error={errorOf(field)}
              value={typed[field as keyof typeof BESIDE]}
              onChange={(event) => setTyped({ ...typed, [field]: event.target.value })}
            />
          ))}
        <TextField
          label="Note"
          error={errorOf('note')}
          value={typed.note}
          onChange={(event) => setTyped({ ...typed, note: event.target.value })}
        />
      </div>
      <div className="acts">
        <button type="submit" className="act">
          {act.act}
        </button>
      </div>
    </form>
  );
}
