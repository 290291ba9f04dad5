'use client';

import { useRouter } from 'next/navigation';
import { useRef, useState } from 'react';
import type { FoundPerson } from '#db/queries/people.ts';
import { isTicketText, readLot } from '#lib/lot-ticket.ts';
import { type Choice, Combobox } from './combobox.tsx';
import { GiveNumber } from './give-number.tsx';
import { PersonForm } from './person-form.tsx';

const NEW = 'new';

interface FindPersonProps {
  readonly saleId: number;
}

/** The one box of the queue: find somebody and give them a number, go on to theirs, or enrol somebody new. */
export function FindPerson({ saleId }: FindPersonProps) {
  const router = useRouter();
  const { text, found, foundFor, type, clear } = usePeople(saleId);
  const searched = foundFor === text;
  const [party, setParty] = useState<readonly FoundPerson[]>([]);
  const [enrolling, setEnrolling] = useState<string>();
  const [ticketError, setTicketError] = useState<string>();
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
    else setEnrolling(text);
  };

  /** A ticket scanned at the table opens its lot. */
  const openLot = () => {
    const lot = readLot(text, saleId);
    setTicketError(lot.ok ? undefined : lot.message);
    if (lot.ok) router.push(`/intake/lot/${lot.value}?sale=${saleId}`);
  };

  /** Enter before the list has come takes its first person as soon as it is there; it enrols nobody by itself. */
  const enter = async (picked: Choice | undefined) => {
    if (picked || text.trim() === '') return;
    if (isTicketText(text)) return openLot();
    const first = (await type(text))?.[0];
    if (first) choose(first);
  };

  if (enrolling !== undefined) {
    return (
      <PersonForm
        name={enrolling}
        onEnrolled={(person) => {
          setEnrolling(undefined);
          choose(person);
        }}
        onLeave={() => setEnrolling(undefined)}
      />
    );
  }
  return (
    <>
      {party.length > 0 && (
        <GiveNumber
          {...{ saleId, party, setParty }}
          onGiven={(sellerNo) => router.push(`/intake/seller/${sellerNo}?sale=${saleId}`)}
        />
      )}
      <Combobox
        key={party.length}
        wide
        autoFocus={party.length === 0}
        inputRef={box}
        label={party.length === 0 ? 'Who is at the table?' : 'Add a partner'}
        hint="Any part of the name, the member number, the phone or the licence; or a ticket scanned"
        value={text}
        error={ticketError}
        onText={(typed) => {
          setTicketError(undefined);
          void type(typed);
        }}
        choices={searched && text.trim() !== '' && !isTicketText(text) ? [...found.map(choiceOf), newcomer(text)] : []}
        onPick={pick}
        onEnter={(picked) => void enter(picked)}
      />
    </>
  );
}

function choiceOf({ personId, name, place, membership, licence, sellerNos }: FoundPerson): Choice {
  const number = sellerNos.length > 0 ? `has seller number ${sellerNos.join(', ')}` : '';
  const detail = [place, number, membership.words, licence.words].filter(Boolean).join(' · ');
  return { id: String(personId), label: name, detail };
}

function newcomer(text: string): Choice {
  return { id: NEW, label: `Enrol “${text.trim()}” as a new person` };
}

/** What is typed, and the people it fits: the answer to an older text never takes the place of a newer one. */
function usePeople(saleId: number) {
  const [text, setText] = useState('');
  const [found, setFound] = useState<{ readonly for: string; readonly people: readonly FoundPerson[] }>(NOBODY);
  const newest = useRef('');
  /** Gives the people where the text is still the one typed last. */
  const type = async (typed: string): Promise<readonly FoundPerson[] | undefined> => {
    setText(typed);
    newest.current = typed;
    if (typed.trim() === '') return undefined;
    try {
      const answer = await fetch(`/api/views/people?sale=${saleId}&q=${encodeURIComponent(typed)}`);
      if (!answer.ok || newest.current !== typed) return undefined;
      const people = (await answer.json()) as FoundPerson[];
      if (newest.current !== typed) return undefined;
      setFound({ for: typed, people });
      return people;
    } catch {
      // The server does not answer: the next key asks again, and the head of the page says that the line is down.
      return undefined;
    }
  };
  const clear = () => {
    newest.current = '';
    setText('');
    setFound(NOBODY);
  };
  return { text, found: found.people, foundFor: found.for, type, clear };
}

const NOBODY = { for: '', people: [] } as const;
