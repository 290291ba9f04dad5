/** Who looked at what is stored about whom. A browser that fetches a page ahead of a press has not looked. */
import 'server-only';
import { headers } from 'next/headers';
import { withSignIns } from '#app/server/session.ts';
import type { Book } from '#db/book/open.ts';
import { type Look, noteLook } from '#db/sign-in/looks.ts';
import { callerAt } from './caller.ts';

export async function noteLooks(book: Book, what: Look, people: readonly number[]): Promise<void> {
  const ahead = (await headers()).has('next-router-prefetch');
  const caller = await callerAt();
  if (ahead || !caller.ok || people.length === 0) return;
  const { worker } = caller.value;
  await withSignIns(book, (store) => {
    for (const personId of people) noteLook(store, { at: Date.now(), worker, personId, what });
  });
}
