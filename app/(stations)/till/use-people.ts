'use client';

import { useRef, useState } from 'react';
import type { FoundPerson } from '#db/queries/people.ts';

/** What is typed and the people it fits; the answer to an older text never takes the place of a newer one. */
export function usePeople(saleId: number) {
  const [text, setText] = useState('');
  const [found, setFound] = useState<readonly FoundPerson[]>([]);
  const newest = useRef('');
  const type = async (typed: string) => {
    setText(typed);
    setFound([]);
    newest.current = typed;
    if (typed.trim() === '') return;
    try {
      const answer = await fetch(`/api/views/people?sale=${saleId}&q=${encodeURIComponent(typed)}`);
      if (!answer.ok) return;
      const people = (await answer.json()) as FoundPerson[];
      if (newest.current === typed) setFound(people);
    } catch {
      // The server does not answer: the next key asks again, and the head of the page says that the line is down.
    }
  };
  return { text, found, type };
}
