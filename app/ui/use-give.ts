'use client';

import { useRouter } from 'next/navigation';
import { useEffect, useLayoutEffect, useState, useTransition } from 'react';
import type { Station } from '#db/book/command.ts';
import type { CommandName } from '#db/commands.ts';
import type { Refusal } from '#lib/result/result.ts';
import { post, type Reply } from './outbox.ts';
import type { TypedInput } from './text-field.tsx';

const sayings = new Set<(nothing: undefined) => void>();

/** What an act said or asked on this page. The next act or question takes it off the screen, in whichever form it is. */
export function useSaid<T>() {
  const [said, say] = useState<T>();
  useEffect(() => {
    sayings.add(say);
    return () => void sayings.delete(say);
  }, []);
  return [said, say] as const;
}

/** Takes off the screen what was said and asked before: whoever reads a new question takes the old sentence for its answer. */
export function unsayAll(): void {
  for (const say of sayings) say(undefined);
}

/**
 * Gives commands from a form: sends through the outbox, keeps the refusal for the form to show, and has the page
 * read its figures anew once the book has accepted.
 */
export function useGive(station: Station) {
  const router = useRouter();
  const [busy, setBusy] = useState(false);
  const [refusal, setRefusal] = useSaid<Refusal>();
  // Until the page has read them anew, its figures are those of before.
  const [stale, readAnew] = useTransition();
  /** `label` is what a person calls the entry, such as `Lot 12`. */
  const give = async <N extends CommandName>(command: N, input: TypedInput<N>, label: string): Promise<Reply<N>> => {
    // Elsewhere the next row is typed while the last one is on its way, or was sent back.
    if (station === 'till' || station === 'payout') unsayAll();
    setBusy(true);
    const reply = await post<N>({ station, command, input, label });
    setBusy(false);
    setRefusal(reply.ok ? undefined : reply);
    if (reply.ok) readAnew(() => router.refresh());
    return reply;
  };
  return { give, busy, stale, refusal, ...useSentences(refusal), clear: () => setRefusal(undefined) };
}

/** What a refusal says of one field, also where that was not the first thing wrong. */
export function sentenceOf(refusal: Refusal | undefined, field: string): string | undefined {
  return allOf(refusal).find((one) => one.field === field)?.message;
}

/** What a refusal says of no field that is drawn, each sentence once; empty where there is nothing of the kind. */
export function sentencesElsewhere(refusal: Refusal | undefined, drawn: ReadonlySet<string>): string {
  const rest = allOf(refusal).filter(({ field }) => field === undefined || !drawn.has(field));
  return [...new Set(rest.map(({ message }) => message))].join(' ');
}

/**
 * The sentences of a refusal: each at its field while that is drawn, and all others together for the head of the form.
 * A field that is drawn asks for its sentence, so nobody keeps a list of fields that a form may not draw just now.
 */
export function useSentences(refusal: Refusal | undefined) {
  const [elsewhere, setElsewhere] = useState('');
  const drawn = new Set<string>();
  const errorOf = (field: string): string | undefined => {
    drawn.add(field);
    return sentenceOf(refusal, field);
  };
  // Fields ask while they are drawn: which of them are there is known once all are.
  useLayoutEffect(() => setElsewhere(sentencesElsewhere(refusal, drawn)));
  return { errorOf, elsewhere };
}

function allOf(refusal: Refusal | undefined): readonly Refusal[] {
  return refusal ? [refusal, ...(refusal.also ?? [])] : [];
}
