'use client';

import { type FormEvent, useRef, useState } from 'react';
import { AskOne } from '#app/(stations)/give-forms.tsx';
import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import { Act, Form, Options, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive, useSaid } from '#app/ui/use-give.ts';
import type { HandOverLot } from '#db/buyer/handover.ts';
import { readLot } from '#lib/lot/number.ts';

interface HandOverProps {
  readonly saleId: number;
  readonly buyerNo: number;
  /** The buyer's own name: most fetch their lots themselves. */
  readonly name: string;
  readonly lots: readonly HandOverLot[];
  /** What became of numbers that were divided or joined, each as a sentence. */
  readonly gone: Readonly<Record<string, string>>;
}

/** Ticks or scans the lots one by one, counts the pieces, and hands them over to whoever carries them away. */
export function HandOver({ saleId, buyerNo, name, lots, gone }: HandOverProps) {
  const ticks = useTicks(saleId, lots, gone);
  const [done, setDone] = useSaid<string>();
  const { give, busy, elsewhere, errorOf } = useGive('till');
  const { texts, set, field } = useTexts({ pieces: '', takenBy: name }, errorOf);
  const { chosen } = ticks;
  const hand = async () => {
    const input = { saleId, buyerNo, lots: chosen, ...texts };
    const reply = await give('handover.record', input, `Lots of buyer ${buyerNo}`);
    if (!reply.ok) return;
    setDone(`${chosen.length === 1 ? '1 lot' : `${chosen.length} lots`} handed over to ${texts.takenBy}.`);
    set({ pieces: '' });
    ticks.clear();
  };
  return (
    <>
      {done && <Notice kind="done" title={done} />}
      {lots.length === 0 && elsewhere && <Notice kind="stop" title={elsewhere} />}
      {lots.length === 0 && <p>No lot of this buyer lies on the table.</p>}
      {lots.length > 0 && (
        <>
          <ScanTicket scan={ticks.scan} said={ticks.said} />
          <Form onEntered={hand} busy={busy} aria-label="Hand over">
            <fieldset className="lot-ticks">
              <legend>
                Lots on the table: {chosen.length} of {lots.length} ticked
              </legend>
              {lots.map((lot) => (
                <CheckField
                  key={lot.lotNo}
                  label={lotInWords(lot)}
                  checked={chosen.includes(lot.lotNo)}
                  onTick={(checked) => ticks.tick(lot.lotNo, checked)}
                />
              ))}
            </fieldset>
            {elsewhere && <Notice kind="stop" title={elsewhere} />}
            <div className="fields">
              <TextField
                label="Pieces counted"
                hint="All ticked lots together, as they lie on the counter; a lot by weight alone is one"
                inputMode="numeric"
                {...field('pieces')}
              />
              <TextField label="Taken by" {...field('takenBy')} />
            </div>
            <SubmitActs label="Hand over" main>
              <Act words="Tick all" act={() => ticks.setTicked(new Set(lots.map(({ lotNo }) => lotNo)))} />
            </SubmitActs>
          </Form>
        </>
      )}
    </>
  );
}

function lotInWords({ lotNo, goods, quantity, tags, waiting }: HandOverLot): string {
  const tagged = tags > 0 ? `, ${tags} export ${tags === 1 ? 'tag' : 'tags'}` : '';
  const broken = waiting > 0 ? `, ${waiting} of them broken: not exportable until replaced` : '';
  return `Lot ${lotNo}: ${goods}, ${quantity}${tagged}${broken}`;
}

/** One ticket after the other: a scanner types what it reads and presses Enter, as a hand can. */
function ScanTicket({ scan, said }: Pick<Ticks, 'scan' | 'said'>) {
  const [text, setText] = useState('');
  const box = useRef<HTMLInputElement>(null);
  const take = (event: FormEvent) => {
    event.preventDefault();
    if (scan(text)) return setText('');
    // What was refused is marked, so that the next ticket takes its place.
    box.current?.focus();
    box.current?.select();
  };
  return (
    <form className="by-number scan" onSubmit={take} noValidate>
      <TextField
        label="Scan a ticket, or type a lot number"
        autoFocus
        ref={box}
        error={said.error}
        value={text}
        onText={setText}
      />
      <button type="submit">Tick the lot</button>
      <span role="status">{said.done}</span>
    </form>
  );
}

/** Takes a lot back over the counter, with the reason. `lotNos` are those that are out. */
export function TakeBack({ saleId, lotNos }: { readonly saleId: number; readonly lotNos: readonly string[] }) {
  const [chosen, setChosen] = useState('');
  const lotNo = lotNos.includes(chosen) ? chosen : (lotNos[0] ?? '');
  return (
    <details>
      <summary>A lot came back</summary>
      <AskOne
        station="till"
        command="handover.return"
        inputOf={(reason) => ({ saleId, lotNo, reason })}
        asks={{ label: 'Why it came back' }}
        act="Take it back"
        entry={`Lot ${lotNo} back`}
        onDone={() => setChosen('')}
      >
        <ChoiceField label="Which lot" value={lotNo} onPick={setChosen}>
          <Options of={lotNos.map((one) => [one, one])} />
        </ChoiceField>
      </AskOne>
    </details>
  );
}

type Ticks = ReturnType<typeof useTicks>;

/** Which lots are ticked, by hand or by their tickets, and what the last ticket said. */
function useTicks(saleId: number, lots: readonly HandOverLot[], gone: HandOverProps['gone']) {
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set());
  const [said, setSaid] = useState<{ readonly done?: string; readonly error?: string }>({});
  const tick = (lotNo: string, on: boolean) => {
    const next = new Set(ticked);
    if (on) next.add(lotNo);
    else next.delete(lotNo);
    setTicked(next);
    setSaid({});
  };
  /** Ticks the lot of a ticket; gives whether it was one of these. */
  const scan = (text: string): boolean => {
    const read = readLot(text.trim(), saleId);
    const lot = read.ok ? lots.find(({ lotNo }) => lotNo === read.value) : undefined;
    if (!read.ok) setSaid({ error: read.message });
    else if (!lot) {
      const what = gone[read.value] ?? `Lot ${read.value} is not among these lots:`;
      setSaid({ error: gone[read.value] ? `${what} Scan the ticket of the part.` : `${what} leave it on the table.` });
    } else if (ticked.has(lot.lotNo)) setSaid({ error: `Lot ${lot.lotNo} is ticked already.` });
    else {
      tick(lot.lotNo, true);
      setSaid({ done: `Lot ${lot.lotNo} ticked: ${lot.goods}, ${lot.quantity}.` });
      return true;
    }
    return false;
  };
  const clear = () => {
    setTicked(new Set());
    setSaid({});
  };
  // A lot that went over another counter meanwhile is no longer in the list.
  const chosen = lots.filter(({ lotNo }) => ticked.has(lotNo)).map(({ lotNo }) => lotNo);
  return { chosen, tick, scan, said, clear, setTicked };
}
