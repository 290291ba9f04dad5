'use client';

import { useRouter } from 'next/navigation';
import { useState, useTransition } from 'react';
import type { Station } from '#db/command.ts';
import type { CommandName } from '#db/commands/index.ts';
import type { Refusal } from '#lib/result.ts';
import { post, type Reply } from './outbox.ts';
import { useSentences } from './use-sentences.ts';
import type { TypedInput } from './whole-number.ts';

/**
 * Gives commands from a form: sends through the outbox, keeps the refusal for the form to show, and has the page
 * read its figures anew once the book has accepted.
 */
export function useGive(station: Station) {
  const router = useRouter();
  const [busy, setBusy] = useState(false);
  const [refusal, setRefusal] = useState<Refusal>();
  // Until the page has read them anew, its figures are those of before.
  const [stale, readAnew] = useTransition();
  /** `label` is what a person calls the entry, such as `Lot 12`. */
  const give = async <N extends CommandName>(command: N, input: TypedInput<N>, label: string): Promise<Reply<N>> => {
    setBusy(true);
    const reply = await post<N>({ station, command, input, label });
    setBusy(false);
    setRefusal(reply.ok ? undefined : reply);
    if (reply.ok) readAnew(() => router.refresh());
    return reply;
  };
  return { give, busy, stale, refusal, ...useSentences(refusal), clear: () => setRefusal(undefined) };
}
