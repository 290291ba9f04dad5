'use client';

import { useRef, useState } from 'react';
import type { Choice } from '#app/ui/combobox.tsx';
import type { FoundPerson } from '#db/person/queries.ts';

const NOBODY = { for: '', people: [] } as const;

/** What is typed, and the people it fits: the answer to an older text never takes the place of a newer one. */
export function usePeople(saleId: number) {
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
  /** Whether the people at hand are those that the text fits. */
  const searched = found.for === text && text.trim() !== '';
  return { text, found: searched ? found.people : [], searched, type, clear };
}

/** The last choice under those who were found. */
export function newcomer(text: string): Choice {
  return { id: 'new', label: `Enrol “${text.trim()}” as a new person` };
}
