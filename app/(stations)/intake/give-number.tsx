'use client';

import { type Ref, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Act, Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { FoundPerson } from '#db/person/queries.ts';
import { shortDate } from '#lib/date/date.ts';
import { isHandedOver } from '#lib/person/dues.ts';
import { DUES_HOW, DuesFieldset, type DuesTyped, duesOf, duesSaid, notChanged } from './dues-fields.tsx';
import { Standings, type TableRules } from './standings.tsx';

interface GiveNumberProps {
  readonly table: TableRules;
  readonly party: readonly FoundPerson[];
  readonly setParty: (party: readonly FoundPerson[]) => void;
  readonly numberRef: Ref<HTMLInputElement>;
  readonly onAmend: (person: FoundPerson) => void;
  readonly onGiven: (sellerNo: number) => void;
  /** Somebody without furs paid dues: what was taken, in words. */
  readonly onDuesOnly: (paid: DuesOnly) => void;
}

/** Gives the seller number: the next one, or that of a card handed out before; partners share it by parts. */
/** Dues that were taken of somebody who gets no number, so that they can be taken back at once. */
export interface DuesOnly {
  readonly duesId: number;
  readonly name: string;
  readonly words: string;
}

export function GiveNumber(props: GiveNumberProps) {
  const { table, party, setParty, numberRef, onAmend, onGiven, onDuesOnly } = props;
  const { saleId } = table;
  const [parts, setParts] = useState<Readonly<Record<number, string>>>({});
  const [dues, setDues] = useState<Readonly<Record<number, DuesTyped>>>({});
  const { give, busy, elsewhere, errorOf } = useGive('intake');
  const { texts, field } = useTexts({ sellerNo: '', broughtBy: '' }, errorOf);
  const duesBy = ({ personId, typed: known }: FoundPerson) => dues[personId] ?? duesOf(table, known.memberUntil);

  const [only] = party.length === 1 ? party : [];

  const register = async () => {
    const partners = party.map((person) => ({
      personId: person.personId,
      parts: wholeNumber((only ? undefined : parts[person.personId]) ?? '1'),
      dues: owesDues(person) ? duesSaid(duesBy(person)) : null,
    }));
    const sellerNo = texts.sellerNo.trim() === '' ? null : wholeNumber(texts.sellerNo);
    const label = `Seller number for ${party.map(({ name }) => name).join(' and ')}`;
    const reply = await give('seller.register', { saleId, partners, ...texts, sellerNo }, label);
    if (reply.ok) onGiven(reply.value.sellerNo);
  };
  const takeOnly = async (person: FoundPerson) => {
    if (busy) return;
    const said = duesSaid(duesBy(person));
    if (!said || !isHandedOver(said.how)) return;
    const { how, amount } = said;
    const input = { saleId, personId: person.personId, sellerNo: null, counts: false, ...said };
    const reply = await give('dues.take', input, `Dues of ${person.name}`);
    if (!reply.ok) return;
    const { duesId, memberUntil, unchanged } = reply.value;
    const words = `Dues of ${person.name} taken, ${amount} ${DUES_HOW[how]}: paid until ${shortDate(memberUntil)}.`;
    onDuesOnly({ duesId, name: person.name, words: `${words} ${notChanged(unchanged)}`.trim() });
  };
  return (
    <Form className="give-number" onEntered={register} busy={busy} wrong={elsewhere} aria-label="Give a seller number">
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
          inputMode="numeric"
          ref={numberRef}
          autoFocus
          {...field('sellerNo')}
        />
        <TextField
          label="Brought by somebody else"
          hint="Who, and what written authority they showed"
          {...field('broughtBy')}
        />
      </div>
      <SubmitActs label="Give the number" main />
    </Form>
  );
}

interface PartyMemberProps {
  readonly person: FoundPerson;
  readonly dues: DuesTyped;
  readonly setDues: (dues: DuesTyped) => void;
  /** Only where several share the number. */
  readonly parts: string | undefined;
  readonly setParts: (parts: string) => void;
  readonly errorOf: (field: string) => string | undefined;
  readonly onAmend: () => void;
  readonly onLeave: () => void;
  /** Takes the dues and gives no number; only for one person by themselves. */
  readonly onDuesOnly: (() => void) | undefined;
}

/** Dues are asked of whoever has not paid them, and taken of nobody else. */
function owesDues({ membership }: FoundPerson): boolean {
  return membership.state !== 'paid';
}

/** Somebody who is to have the number: how they stand, their parts, and dues where they owe some. */
function PartyMember(props: PartyMemberProps) {
  const { person, dues, setDues, parts, setParts, errorOf, onAmend, onLeave, onDuesOnly } = props;
  const { name, place, membership, licence } = person;
  return (
    <li>
      <strong>{name}</strong> <span className="soft">{place}</span>
      <Standings membership={membership} licence={licence} />
      {parts !== undefined && (
        <TextField
          label={`Parts of ${name}`}
          error={errorOf('parts')}
          inputMode="numeric"
          value={parts}
          onText={setParts}
        />
      )}
      {owesDues(person) && (
        <DuesFieldset name={name} typed={dues} onChange={setDues} errorOf={(field) => errorOf(`dues.${field}`)} />
      )}
      <div className="acts">
        <Act words={`Particulars of ${name}`} act={onAmend} />
        <Act words={`Take ${name} off`} act={onLeave} />
        {onDuesOnly && dues.how !== '' && isHandedOver(dues.how) && (
          <Act words="Take the dues only, without furs" act={onDuesOnly} />
        )}
      </div>
    </li>
  );
}
