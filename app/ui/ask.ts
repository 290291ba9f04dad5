/** A request that is not kept in the outbox, because a passphrase or a code must not be stored in the browser. */
import type { Refusal } from '#lib/result.ts';

export type Answered<T> = (T & { readonly ok: true }) | Refusal;

const NO_ANSWER: Refusal = {
  ok: false,
  code: 'unknown',
  message: 'The server did not answer: nothing typed is lost, try again.',
};

/** Sends JSON once and gives the answer, or the refusal in a sentence. */
export async function ask<T>(path: string, body: object, headers: Record<string, string> = {}): Promise<Answered<T>> {
  try {
    const response = await fetch(path, {
      method: 'POST',
      // The server takes nothing that does not say from which table it comes.
      headers: { 'content-type': 'application/json', 'x-station': 'sign-in', ...headers },
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

/** Gives a command of the office at once. */
export function askOffice(command: string, input: object): Promise<Answered<object>> {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  const key = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return ask(`/api/commands/${command}`, input, { 'idempotency-key': key, 'x-station': 'office' });
}
