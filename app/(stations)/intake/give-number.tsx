'use client';

import { type FormEvent, type Ref, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { wholeNumber } from '#app/ui/whole-number.ts';
import type { FoundPerson } from '#db/queries/people.ts';
import { isHandedOver } from '#lib/dues.ts';
import { DUES_HOW, type DuesTyped, duesOf, duesSaid, notChanged } from './dues-fields.tsx';
import { owesDues, PartyMember } from './party-member.tsx';
import type { TableRules } from './table-rules.ts';

interface GiveNumberProps {
  readonly table: TableRules;
  readonly party: readonly FoundPerson[];
  readonly setParty: (party: readonly FoundPerson[]) => void;
  readonly numberRef: Ref<HTMLInputElement>;
  readonly onAmend: (person: FoundPerson) => void;
  readonly onGiven: (sellerNo: number) => void;
  /** Somebody without furs paid dues: what was taken, in words. */
  readonly onDuesOnly: (words: string) => void;
}

/** Gives the seller number: the next one, or that of a card handed out before; partners share it by parts. */
export function GiveNumber(props: GiveNumberProps) {
  const { table, party, setParty, numberRef, onAmend, onGiven, onDuesOnly } = props;
  const { saleId } = table;
  const [typed, setTyped] = useState('');
  const [broughtBy, setBroughtBy] = useState('');
  const [parts, setParts] = useState<Readonly<Record<number, string>>>({});
  const [dues, setDues] = useState<Readonly<Record<number, DuesTyped>>>({});
  const { give, busy, elsewhere, errorOf } = useGive('intake');
  const duesBy = ({ personId, typed: known }: FoundPerson) => dues[personId] ?? duesOf(table, known.memberUntil);

  const [only] = party.length === 1 ? party : [];

  const register = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const partners = party.map((person) => ({
      personId: person.personId,
      parts: wholeNumber((only ? undefined : parts[person.personId]) ?? '1'),
      dues: owesDues(person) ? duesSaid(duesBy(person)) : null,
    }));
    const sellerNo = typed.trim() === '' ? null : wholeNumber(typed);
    const label = `Seller number for ${party[0]?.name}`;
    const reply = await give('seller.register', { saleId, sellerNo, partners, broughtBy }, label);
    if (reply.ok) onGiven(reply.value.sellerNo);
  };
  const takeOnly = async (person: FoundPerson) => {
    if (busy) return;
    const said = duesSaid(duesBy(person));
    if (!said || !isHandedOver(said.how)) return;
    const { how, amount } = said;
    const input = { saleId, personId: person.personId, sellerNo: null, ...said };
    const reply = await give('dues.take', input, `Dues of ${person.name}`);
    if (!reply.ok) return;
    const { memberUntil, unchanged } = reply.value;
    const words = `Dues of ${person.name} taken, ${amount} ${DUES_HOW[how]}: paid until ${memberUntil}.`;
    onDuesOnly(`${words} ${notChanged(unchanged)}`.trim());
  };
  return (
    <form className="give-number" onSubmit={(event) => void register(event)} aria-label="Give a seller number">
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      <ul className="party">
        {party.map((person, at) => (
          <PartyMember
            key={person.personId}
            person={person}
            dues={duesBy(person)}
            setDues={(now) => setDues({ ...dues, [person.personId]: now })}
            parts={party.length > 1 ? (parts[person.personId] ?? '1') : undefined}
            setParts={(now) => setParts({ ...parts, [person.personId]: now })}
            errorOf={(field) =>
              errorOf(`partners.${at}.${field}`) ?? (only ? errorOf(field.replace('dues.', '')) : undefined)
            }
            onAmend={() => onAmend(person)}
            onLeave={() => setParty(party.filter((one) => one !== person))}
            onDuesOnly={only ? () => void takeOnly(only) : undefined}
          />
        ))}
      </ul>
      <div className="fields">
        <TextField
          label="Seller number"
          hint="Empty gives the next free one"
          error={errorOf('sellerNo')}
          inputMode="numeric"
          value={typed}
          ref={numberRef}
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
