import 'server-only';
import { accept, type Result, refuse } from '#lib/result.ts';

const LARGEST_BODY = 1_000_000;
const TOO_LARGE = 'This is too much for one entry: enter it in parts.';

/** The JSON that a request of our own pages carries; refused where another site sent it, or it is no JSON. */
export async function readJson(request: Request): Promise<Result<unknown>> {
  if (!isOwnOrigin(request)) return refuse('not_allowed', 'This entry came from another site: nothing was changed.');
  if (!request.headers.get('content-type')?.startsWith('application/json')) {
    return refuse('malformed', 'Send the entry as application/json.');
  }
  const text = await readText(request);
  if (!text.ok) return text;
  try {
    return accept(JSON.parse(text.value));
  } catch {
    return refuse('malformed', 'The entry could not be read as JSON. Reload the page and enter it again.');
  }
}

/** A browser names the origin of every POST; what names none is no browser, and carries no cookie by accident. */
export function isOwnOrigin(request: Request): boolean {
  const site = request.headers.get('sec-fetch-site');
  if (site !== null && site !== 'same-origin') return false;
  const origin = request.headers.get('origin');
  if (origin === null) return site === null;
  const host = request.headers.get('host');
  return host !== null && (origin === `http://${host}` || origin === `https://${host}`);
}

/** Reads no further than the limit, so that nobody fills the memory. */
async function readText(request: Request): Promise<Result<string>> {
  const decoder = new TextDecoder();
  let text = '';
  let bytes = 0;
  const reader = request.body?.getReader();
  for (let part = await reader?.read(); part && !part.done; part = await reader?.read()) {
    bytes += part.value.byteLength;
    if (bytes > LARGEST_BODY) {
      await reader?.cancel();
      return refuse('too_large', TOO_LARGE);
    }
    text += decoder.decode(part.value, { stream: true });
  }
  return accept(text + decoder.decode());
}
