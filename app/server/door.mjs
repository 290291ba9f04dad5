// Entries go to the door of the book by themselves: the framework's way to it costs more than the entry.
import { LARGEST_BODY, TOO_LARGE } from './limits.mjs';

const ENTRY = /^\/api\/commands\/([a-z]+\.[a-z]+)$/;

/** The command that a request brings to the door, or undefined where it is no entry, or the door is not loaded yet. */
export function commandOf({ method, url }) {
  if (method !== 'POST' || !globalThis.peltryHouse?.door) return undefined;
  return ENTRY.exec(url)?.[1];
}

export async function answerAtTheDoor(command, request, response) {
  const headers = { get: (name) => headerOf(request, name) };
  try {
    const { door } = globalThis.peltryHouse;
    const { text, ...reply } = await door(command, { headers, text: () => bodyOf(request) });
    response.writeHead(reply.status, { ...reply.headers, 'content-length': Buffer.byteLength(text) });
    response.end(text);
    // Who sends without an end is given time to read why nothing of it is taken.
    if (!request.complete) setTimeout(() => request.complete || request.socket.destroy(), 2000).unref();
  } catch (fault) {
    // Whoever went away in the middle of an entry sends it again with the same key.
    if (request.destroyed && !request.complete) return;
    console.error(fault);
    response.writeHead(500, { 'content-type': 'text/plain' }).end('Internal Server Error');
  }
}

function headerOf({ headers }, name) {
  const value = headers[name] ?? null;
  return Array.isArray(value) ? value.join(', ') : value;
}

/** The text of the body; of more than an entry may be nothing is kept. */
function bodyOf(request) {
  return new Promise((resolve, reject) => {
    const parts = [];
    let bytes = 0;
    request.on('data', (part) => {
      bytes += part.length;
      if (bytes <= LARGEST_BODY) return parts.push(part);
      parts.length = 0;
      return resolve({ ok: false, code: 'too_large', message: TOO_LARGE });
    });
    request.once('end', () => resolve({ ok: true, value: new TextDecoder().decode(Buffer.concat(parts)) }));
    request.once('error', reject);
  });
}
