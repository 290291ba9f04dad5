import 'server-only';
import type { Book } from '#db/open.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result.ts';
import { theBook } from './book.ts';
import { knowsHost } from './knows-host.ts';
import { type HeaderList, lineOf, shutLine } from './line.ts';
import { LARGEST_BODY, TOO_LARGE } from './server/limits.mjs';
import type { Letter } from './wire-letter.ts';

export async function readJson(request: Request): Promise<Result<unknown>> {
  return jsonOf(await theBook(), letterOf(request));
}

export function letterOf(request: Request): Letter {
  return { headers: request.headers, text: () => readText(request, LARGEST_BODY) };
}

/**
 * The JSON that a request of our own pages carries; refused where another site sent it, the line is not for the staff,
 * or it is no JSON.
 */
export async function jsonOf(book: Book, letter: Letter): Promise<Result<unknown>> {
  const stranger = strangerOf(book, letter.headers);
  if (stranger) return stranger;
  if (!/^application\/json *(;|$)/.test(letter.headers.get('content-type') ?? '')) {
    return refuse('malformed', 'Send the entry as application/json.');
  }
  const text = await letter.text();
  if (!text.ok) return text;
  try {
    return accept(JSON.parse(text.value));
  } catch {
    return refuse('malformed', 'The entry could not be read as JSON. Reload the page and enter it again.');
  }
}

export async function notOurs({ headers }: Request): Promise<Refusal | undefined> {
  return strangerOf(await theBook(), headers);
}

/**
 * Why a request is none of our own pages', or undefined. `X-Station` says from which table it comes: neither a form nor
 * another site's script can send it unasked.
 */
function strangerOf(book: Book, headers: HeaderList): Refusal | undefined {
  if (!isOwnOrigin({ headers }) || headers.get('x-station') === null) {
    return refuse('not_allowed', 'This came from another site: nothing was changed. Reload the page and try again.');
  }
  return shutLine(book, headers);
}

/** A browser names the origin of every POST: it must be the very one that this request was sent to. */
export function isOwnOrigin({ headers }: Pick<Letter, 'headers'>): boolean {
  const site = headers.get('sec-fetch-site');
  const host = headers.get('host');
  if ((site !== null && site !== 'same-origin') || !knowsHost(host)) return false;
  return headers.get('origin') === `${lineOf(headers).secure ? 'https' : 'http'}://${host}`;
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
