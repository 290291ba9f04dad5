'use client';

import { useRouter } from 'next/navigation';
import { useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import { newcomer, usePeople } from '#app/(stations)/use-people.ts';
import { type Choice, Combobox } from '#app/ui/combobox.tsx';
import { Notice } from '#app/ui/notice.tsx';
import type { FoundPerson } from '#db/person/queries.ts';
import { dayTyped } from '#lib/date/typed-date.ts';
import { readLot } from '#lib/lot/number.ts';
import { isTicketText } from '#lib/lot/ticket.ts';
import type { PersonAsTyped } from '#lib/person/fields.ts';
import { licenceInWords, membershipInWords } from '#lib/person/person.ts';
import { type DuesOnly, GiveNumber } from './give-number.tsx';
import { TakeDuesBack } from './partner-acts.tsx';
import { PersonForm } from './person-form.tsx';
import type { TableRules } from './standings.tsx';

/** The one box of the queue: find somebody and give them a number, go on to theirs, or enrol somebody new. */
export function FindPerson({ table }: { readonly table: TableRules }) {
  const { saleId, heldOn } = table;
  const router = useRouter();
  const { text, found, searched, type, clear } = usePeople(saleId);
  const [party, setParty] = useState<readonly FoundPerson[]>([]);
  const [form, setForm] = useState<{ readonly name?: string; readonly known?: FoundPerson }>();
  const [paid, setPaid] = useState<DuesOnly>();
  const [ticketError, setTicketError] = useState<string>();
  const number = useRef<HTMLInputElement>(null);
  const box = useRef<HTMLInputElement>(null);

  const choose = (person: FoundPerson) => {
    const sellerNo = person.sellerNos[0];
    clear();
    if (sellerNo !== undefined && party.length === 0) router.push(`/intake/seller/${sellerNo}?sale=${saleId}`);
    else if (!party.some(({ personId }) => personId === person.personId)) setParty([...party, person]);
  };
  const pick = ({ id }: Choice) => {
    const person = found.find(({ personId }) => String(personId) === id);
    if (person) choose(person);
    else setForm({ name: text });
  };

  /** A ticket scanned at the table opens its lot. */
  const openLot = () => {
    const lot = readLot(text, saleId);
    setTicketError(lot.ok ? undefined : lot.message);
    if (lot.ok) return router.push(`/intake/lot/${lot.value}?sale=${saleId}`);
    // What was refused is marked, so that the next ticket takes its place.
    box.current?.select();
  };

  /** Enter before the list has come takes its first person as soon as it is there; it enrols nobody by itself. */
  const enter = async (picked: Choice | undefined) => {
    if (picked || text.trim() === '') return;
    if (isTicketText(text)) return openLot();
    const first = (await type(text))?.[0];
    if (first) choose(first);
  };

  const formDone = (personId: number, typed: PersonAsTyped) => {
    const now = toPerson(personId, typed, heldOn);
    flushSync(() => {
      setForm(undefined);
      if (form?.known) setParty(party.map((one) => (one.personId === personId ? now : one)));
    });
    if (form?.known) number.current?.focus();
    else choose(now);
  };
  // Behind the form all that was typed stays, so that nobody types a number or a name again.
  return (
    <>
      {form && <PersonForm {...form} onDone={formDone} onLeave={() => setForm(undefined)} />}
      <div hidden={form !== undefined}>
        {paid && (
          <Notice kind="done" title={paid.words}>
            <TakeDuesBack {...paid} onDone={() => setPaid(undefined)} />
          </Notice>
        )}
        {party.length > 0 && (
          <GiveNumber
            {...{ table, party, setParty }}
            numberRef={number}
            onAmend={(known) => setForm({ known })}
            onDuesOnly={(now) => {
              setParty([]);
              setPaid(now);
            }}
            onGiven={(sellerNo) => router.push(`/intake/seller/${sellerNo}?sale=${saleId}`)}
          />
        )}
        <Combobox
          key={party.length}
          wide
          inputRef={box}
          autoFocus={party.length === 0}
          label={party.length === 0 ? 'Who is at the table?' : 'Add a partner'}
          hint="Any part of the name, the member number, the phone or the licence; or a ticket scanned"
          value={text}
          error={ticketError}
          onText={(typed) => {
            setTicketError(undefined);
            setPaid(undefined);
            void type(typed);
          }}
          choices={searched && !isTicketText(text) ? [...found.map(choiceOf), newcomer(text)] : []}
          onPick={pick}
          onEnter={(picked) => void enter(picked)}
        />
      </div>
    </>
  );
}

function choiceOf({ personId, name, place, membership, licence, sellerNos }: FoundPerson): Choice {
  const number = sellerNos.length > 0 ? `has seller number ${sellerNos.join(', ')}` : '';
  const detail = [place, number, membership.words, licence.words].filter(Boolean).join(' · ');
  return { id: String(personId), label: name, detail };
}

/** Somebody who was enrolled or put right this moment, as the box would find them. */
function toPerson(personId: number, typed: PersonAsTyped, heldOn: string): FoundPerson {
  const { name, city, region, phone } = typed;
  const facts = { ...typed, memberUntil: dayTyped(typed.memberUntil), licenceExpires: dayTyped(typed.licenceExpires) };
  return {
    ...{ personId, name, phone, typed, sellerNos: [] },
    place: [city, region].filter(Boolean).join(', '),
    membership: membershipInWords(facts, heldOn),
    licence: licenceInWords(facts, heldOn),
  };
}
