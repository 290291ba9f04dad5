'use client';

import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { FoundPerson } from '#db/queries/people.ts';
import { Standings } from './standings.tsx';

interface GiveNumberProps {
  readonly saleId: number;
  readonly party: readonly FoundPerson[];
  readonly setParty: (party: readonly FoundPerson[]) => void;
  readonly onGiven: (sellerNo: number) => void;
}

/** Gives the seller number: the next one, or that of a card handed out before; partners share it by parts. */
export function GiveNumber({ saleId, party, setParty, onGiven }: GiveNumberProps) {
  const [typed, setTyped] = useState('');
  const [broughtBy, setBroughtBy] = useState('');
  const [parts, setParts] = useState<Readonly<Record<number, string>>>({});
  const { give, busy, refusal, errorOf } = useGive('intake');

  const register = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const partners = party.map(({ personId }) => ({ personId, parts: wholeOrText(parts[personId] ?? '1') }));
    const sellerNo = typed.trim() === '' ? null : wholeOrText(typed);
    const label = `Seller number for ${party[0]?.name}`;
    const reply = await give({ command: 'seller.register', input: { saleId, sellerNo, partners, broughtBy }, label });
    if (reply.ok) onGiven((reply.value as { sellerNo: number }).sellerNo);
  };
  const atField = errorOf('sellerNo');
  return (
    <form className="give-number" onSubmit={(event) => void register(event)} aria-label="Give a seller number">
      {refusal && atField === undefined && <Notice kind="stop" title={refusal.message} />}
      <ul className="party">
        {party.map((person, at) => (
          <li key={person.personId}>
            <strong>{person.name}</strong> <span className="soft">{person.place}</span>
            <Standings membership={person.membership} licence={person.licence} />
            {party.length > 1 && (
              <TextField
                label={`Parts of ${person.name}`}
                error={errorOf(`partners.${at}.parts`)}
                inputMode="numeric"
                value={parts[person.personId] ?? '1'}
                onChange={(event) => setParts({ ...parts, [person.personId]: event.target.value })}
              />
            )}
            <button type="button" onClick={() => setParty(party.filter((one) => one !== person))}>
              Take {person.name} off
            </button>
          </li>
        ))}
      </ul>
      <div className="fields">
        <TextField
          label="Seller number"
          hint="Empty gives the next free one"
          error={atField}
          inputMode="numeric"
          value={typed}
          autoFocus
          onChange={(event) => setTyped(event.target.value)}
        />
        <TextField
          label="Brought by somebody else"
          hint="Who, and what written authority they showed"
          error={errorOf('broughtBy')}
          value={broughtBy}
          onChange={(event) => setBroughtBy(event.target.value)}
        />
      </div>
      <div className="acts">
        <button type="submit" className="act">
          Give the number
        </button>
      </div>
    </form>
  );
}

/** A whole number as the book wants it; anything else goes as it was typed, for the book to say what is wrong. */
function wholeOrText(text: string): number | string {
  return /^\d{1,9}$/.test(text.trim()) ? Number.parseInt(text, 10) : text;
}
