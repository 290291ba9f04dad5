'use client';

import { type FormEvent, useState } from 'react';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { HandOverLot } from '#db/queries/hand-over-view.ts';
import { ScanTicket } from './scan-ticket.tsx';
import { useTicks } from './use-ticks.ts';

interface HandOverProps {
  readonly saleId: number;
  readonly buyerNo: number;
  /** The buyer's own name: most fetch their lots themselves. */
  readonly name: string;
  readonly lots: readonly HandOverLot[];
}

/** Ticks or scans the lots one by one, counts the pieces, and hands them over to whoever carries them away. */
export function HandOver({ saleId, buyerNo, name, lots }: HandOverProps) {
  const ticks = useTicks(saleId, lots);
  const [typed, setTyped] = useState({ pieces: '', takenBy: name });
  const [done, setDone] = useState<string>();
  const { give, busy, elsewhere, errorOf } = useGive('till');
  const { chosen } = ticks;
  const hand = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    setDone(undefined);
    const input = { saleId, buyerNo, lots: chosen, ...typed };
    const reply = await give('handover.record', input, `Lots of buyer ${buyerNo}`);
    if (!reply.ok) return;
    setDone(`${chosen.length === 1 ? '1 lot' : `${chosen.length} lots`} handed over to ${typed.takenBy}.`);
    setTyped({ ...typed, pieces: '' });
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
          <form onSubmit={(event) => void hand(event)} aria-label="Hand over">
            <fieldset className="lot-ticks">
              <legend>
                Lots on the table: {chosen.length} of {lots.length} ticked
              </legend>
              {lots.map((lot) => (
                <CheckField
                  key={lot.lotNo}
                  label={lotInWords(lot)}
                  checked={chosen.includes(lot.lotNo)}
                  onChange={(event) => ticks.tick(lot.lotNo, event.target.checked)}
                />
              ))}
            </fieldset>
            {elsewhere && <Notice kind="stop" title={elsewhere} />}
            <div className="fields">
              <TextField
                label="Pieces counted"
                hint="All ticked lots together, as they lie on the counter; a lot by weight alone is one"
                inputMode="numeric"
                error={errorOf('pieces')}
                value={typed.pieces}
                onChange={(event) => setTyped({ ...typed, pieces: event.target.value })}
              />
              <TextField
                label="Taken by"
                error={errorOf('takenBy')}
                value={typed.takenBy}
                onChange={(event) => setTyped({ ...typed, takenBy: event.target.value })}
              />
            </div>
            <div className="acts">
              <button type="submit" className="act">
                Hand over
              </button>
              <button type="button" onClick={() => ticks.setTicked(new Set(lots.map(({ lotNo }) => lotNo)))}>
                Tick all
              </button>
            </div>
          </form>
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
