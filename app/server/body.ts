import 'server-only';
import type { Book } from '#db/book/open.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import { connectionOf, knowsHost, refuseConnection } from './connection.ts';
import { LARGEST_BODY, TOO_LARGE } from './limits.mjs';

/**
 * The JSON that a request of our own pages carries; refused where another site sent it, the line is not for the staff,
 * or it is no JSON.
 */
export async function readJson(book: Book, request: Request): Promise<Result<unknown>> {
  const stranger = notOurs(book, request);
  if (stranger) return stranger;
  if (!/^application\/json *(;|$)/.test(request.headers.get('content-type') ?? '')) {
    return refuse('malformed', 'Send the entry as application/json.');
  }
  const text = await readText(request, LARGEST_BODY);
  if (!text.ok) return text;
  try {
    return accept(JSON.parse(text.value));
  } catch {
    return refuse('malformed', 'The entry could not be read as JSON. Reload the page and enter it again.');
  }
}

/**
 * Why a request is none of our own pages', or undefined. `X-Station` says from which table it comes: neither a form nor
 * another site's script can send it unasked.
 */
export function notOurs(book: Book, request: Request): Refusal | undefined {
  if (!isOwnOrigin(request) || request.headers.get('x-station') === null) {
    return refuse('not_allowed', 'This came from another site: nothing was changed. Reload the page and try again.');
  }
  return refuseConnection(book, request.headers);
}

/** A browser names the origin of every POST: it must be the very one that this request was sent to. */
export function isOwnOrigin({ headers }: Request): boolean {
  const site = headers.get('sec-fetch-site');
  const host = headers.get('host');
  if ((site !== null && site !== 'same-origin') || !knowsHost(host)) return false;
  return headers.get('origin') === `${connectionOf(headers).secure ? 'https' : 'http'}://${host}`;
}

/** Reads no further than the limit, so that nobody fills the memory. */
export async function readText(request: Request, most: number): Promise<Result<string>> {
  const decoder = new TextDecoder();
  let text = '';
  let bytes = 0;
  const reader = request.body?.getReader();
  for (let part = await reader?.read(); part && !part.done; part = await reader?.read()) {
    bytes += part.value.byteLength;
    if (bytes > most) {
      await reader?.cancel();
      return refuse('too_large', TOO_LARGE);
    }
    text += decoder.decode(part.value, { stream: true });
  }
  return accept(text + decoder.decode());
}
