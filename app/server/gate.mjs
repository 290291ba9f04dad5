// What stands before the application: how a request came is said by this server and by nobody else.
import { answerEntry, commandOf } from './entry.mjs';
import { setHeaders } from './headers.mjs';
import { LARGEST_BODY, TOO_LARGE } from './limits.mjs';
import { refusalText } from './refusal.mjs';

/** Whether a socket ends on this machine, so that nobody can listen in between. */
const isFromHere = (address = '') => /^(::ffff:)?127\.|^::1$/.test(address);

/**
 * Gives the listener of one line: `secure` says whether it is encrypted, `handle` is the framework, `book` is what
 * app/server/book.ts gives. A page under development is left its own policy: the framework's tools need another.
 */
export function gate({ secure, handle, book, dev = false }) {
  return (request, response) => {
    if (!dev) setHeaders(request, response, { secure });
    // Before anything is answered: another laptop may lead this book by now.
    const carried = book.hear(request.headers.cookie, commandOf(request) !== undefined);
    if (carried) response.setHeader('set-cookie', carried);
    // What a browser has typed for another book is not sent to this one.
    for (const [name, value] of Object.entries(book.signs())) response.setHeader(name, value);
    const refusal = refusalOf(request, book);
    if (refusal) return refuse(request, response, refusal);
    for (const name of Object.keys(request.headers)) {
      if (/^(forwarded$|x-forwarded-|x-peltry-)/.test(name)) delete request.headers[name];
    }
    request.headers['x-forwarded-proto'] = secure ? 'https' : 'http';
    const from = isFromHere(request.socket.remoteAddress) ? 'machine' : 'hall';
    request.headers['x-peltry-line'] = `${secure ? 'secure' : 'open'} ${from}`;
    const command = commandOf(request);
    if (command === undefined) handle(request, response);
    else answerEntry({ command, book }, request, response);
  };
}

/** RFC 9110: 421 where the host is not ours (15.5.20), 413 where the body is too long (15.5.14). */
function refusalOf({ headers, url, method }, book) {
  if (!url.startsWith('/') || method === 'TRACE' || method === 'CONNECT')
    return { status: 400, code: 'malformed', detail: 'Ask for a page of this server.' };
  if (!book.knowsHost(headers.host ?? '')) {
    const detail = 'This machine is not known under that name. Use its address, or have the office enter the name.';
    return { status: 421, code: 'wrong_address', detail };
  }
  // What is too long and says so is not even read.
  const length = Number.parseInt(headers['content-length'] ?? '0', 10);
  if (length > LARGEST_BODY) return { status: 413, code: 'too_large', detail: TOO_LARGE };
  return null;
}

function refuse(request, response, refusal) {
  const [type, text] = refusalText(request.headers, refusal);
  const headers = { 'content-type': type, 'cache-control': 'no-store', connection: 'close' };
  // The rest of the body is let run off first, for a while: a caller that still writes would not read the answer.
  const say = () => {
    if (response.headersSent || response.destroyed) return;
    response.writeHead(refusal.status, headers).end(text);
  };
  request.once('end', say);
  request.resume();
  setTimeout(say, 1500).unref();
  setTimeout(() => request.socket.destroy(), 2000).unref();
}
