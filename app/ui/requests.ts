/**
 * Requests that are not stored in the outbox: a passphrase or a code must not lie in the browser, and some change
 * nothing in the book.
 */
import type { Station } from '#db/book/command.ts';
import type { CommandName, InputOf, ValueOf } from '#db/commands.ts';
import type { Refusal } from '#lib/result/result.ts';
import { drawKey } from './storage.ts';

export type Answered<T> = (T & { readonly ok: true }) | Refusal;

const NO_ANSWER: Refusal = {
  ok: false,
  code: 'unknown',
  message: 'The server did not answer: nothing typed is lost, try again.',
};

/** From which table a request comes: the server takes nothing that does not say so. */
export type From = Station | 'sign-in';

/** Sends JSON once and gives the answer, which says `ok` itself, or the refusal in a sentence. */
export async function ask<T>(path: string, from: From, body: object, key?: string): Promise<Answered<T>> {
  try {
    const response = await fetch(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'x-station': from, ...(key && { 'idempotency-key': key }) },
      body: JSON.stringify(body),
    });
    if (response.ok) return (await response.json()) as T & { ok: true };
    if (!response.headers.get('content-type')?.includes('problem+json')) return NO_ANSWER;
    const { detail, code, field } = await response.json();
    return { ok: false, code, message: detail, ...(field && { field }) };
  } catch {
    return NO_ANSWER;
  }
}

/** A passphrase goes as it was typed: the server puts its hash in its place before the door. */
type WithPassphrase<T> = T extends { readonly passphraseMark: string }
  ? Omit<T, 'passphraseMark'> & { readonly passphrase: string }
  : T;

/** Gives a command of the office at once. */
export function askOffice<N extends CommandName>(
  command: N,
  input: WithPassphrase<InputOf<N>> & object,
): Promise<Answered<{ readonly value: ValueOf<N> }>> {
  return ask(`/api/commands/${command}`, 'office', input, drawKey());
}

export interface OfficeAnswer {
  readonly ok: boolean;
  readonly words: string;
}

/** Asks the server for one of the office's acts that change no entry: a backup, a proof, or that writing goes on. */
export async function sendOffice(act: 'writing' | 'backup' | 'verify'): Promise<OfficeAnswer> {
  const answer: { ok: boolean; words?: string; message?: string } = await ask(`/api/office/${act}`, 'office', {});
  return { ok: answer.ok, words: answer.words ?? answer.message ?? '' };
}
