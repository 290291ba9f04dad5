// What stands before the application: how a request came is said by this server and by nobody else.
import { answerEntry, commandOf } from './entry.mjs';
import { notWellFormed } from './guard/well-formed.mjs';
import { setHeaders } from './headers.mjs';
import { LARGEST_BODY, TOO_LARGE } from './limits.mjs';
import { refusalText } from './refusal.mjs';

/** Whether a socket ends on this machine, so that nobody can listen in between. */
const isFromHere = (address = '') => /^(::ffff:)?127\.|^::1$/.test(address);

/** Where names, codes and passphrases come from people who are not signed in. */
const FOR_STRANGERS = /^\/(api\/sign-in|prices\/own\/(enter|leave))(\?|$)/;
const STREAM = /^\/api\/live(\?|$)/;
/** The build's own files cost next to nothing. */
const FILE = /^\/_next\/static\//;

/** An entry is sent again after a 503, and by itself; whoever reads waits a second. */
const BUSY = {
  stream: [503, 'Too many pages are open on devices at this address: close some.'],
  body: [503, 'Too much is being sent from this address: it is sent again by itself.'],
  unknown: [429, 'There were many tries from this address: wait a few seconds, then try again.'],
  pages: [503, 'Too many pages are asked for from this address: wait a few seconds.'],
};

/**
 * Gives the listener of one line: `secure` says whether it is encrypted, `handle` is the framework, `book` is what
 * app/server/book.ts gives. A page under development is left its own policy: the framework's tools need another.
 */
export function gate({ secure, handle, book, dev = false }) {
  return (request, response) => {
    const shares = book.shares();
    const held = shares.of(request.socket);
    if (!held) return request.socket.destroy();
    if (!shares.asks(held, response)) return;
    if (!dev) setHeaders(request, response, { secure });
    // Before anything is answered: another laptop may lead this book by now.
    const { cookie } = request.headers;
    const shown = request.method === 'GET' && !FILE.test(request.url);
    const carried = [book.hear(cookie, commandOf(request) !== undefined), shown && book.looked(cookie)].filter(Boolean);
    if (carried.length > 0) response.setHeader('set-cookie', carried);
    // What a browser has typed for another book is not sent to this one.
    for (const [name, value] of Object.entries(book.signs())) response.setHeader(name, value);
    const refusal = refusalOf(request, book) ?? (dev ? null : notWellFormed(request));
    if (refusal) {
      shares.refused(held);
      return refuse(request, response, refusal);
    }
    for (const name of Object.keys(request.headers)) {
      if (/^(forwarded$|x-forwarded-|x-peltry-)/.test(name)) delete request.headers[name];
    }
    request.headers['x-forwarded-proto'] = secure ? 'https' : 'http';
    const from = isFromHere(request.socket.remoteAddress) ? 'machine' : 'hall';
    request.headers['x-peltry-line'] = `${secure ? 'secure' : 'open'} ${from}`;
    request.headers['x-peltry-client'] = held.client.name;
    giveOn({ request, response, handle, book, shares, held });
  };
}

/** Gives a request to what answers it, as far as its client has a share of that left. */
function giveOn({ request, response, handle, book, shares, held }) {
  const { url, method } = request;
  const busy = (over) => refuse(request, response, busyWith(over));
  if (method === 'GET' || method === 'HEAD') {
    const over = STREAM.test(url) ? shares.stream(held, response) : null;
    if (over) return busy(over);
    if (STREAM.test(url) || FILE.test(url)) return void handle(request, response);
    // A page that reads its figures anew takes a refusal for another page, and goes there: what is typed on it would be
    // lost. A cut line it bears, and reads again.
    const turnAway = request.headers.rsc ? () => request.socket.destroy() : busy;
    return shares.page(held, response, () => handle(request, response), turnAway);
  }
  const over =
    (FOR_STRANGERS.test(url) ? shares.unknown(held, Date.now()) : null) ??
    shares.body(held, bytesOf(request), response);
  if (over) return busy(over);
  const command = commandOf(request);
  if (command === undefined) handle(request, response);
  else answerEntry({ command, book }, request, response);
}

function busyWith(over) {
  const [status, detail] = BUSY[over];
  return { status, code: 'on_hold', detail, after: 1 };
}

const bytesOf = ({ headers }) => Number.parseInt(headers['content-length'] ?? String(LARGEST_BODY), 10);

/** RFC 9110: 421 where the host is not ours (15.5.20), 413 where the body is too long (15.5.14). */
function refusalOf({ headers, url, method }, book) {
  if (!url.startsWith('/') || method === 'TRACE' || method === 'CONNECT')
    return { status: 400, code: 'malformed', detail: 'Ask for a page of this server.' };
  if (!book.knowsHost(headers.host ?? '')) {
    book.noteWrongName?.(headers.host ?? '');
    const best = book.bestAddress?.();
    const way = best ? `Use ${best}/join instead` : 'Use its address';
    const detail = `This machine is not known under that name. ${way}, or have the office enter the name.`;
    return { status: 421, code: 'wrong_address', detail };
  }
  // What is too long and says so is not even read.
  const length = Number.parseInt(headers['content-length'] ?? '0', 10);
  if (length > LARGEST_BODY) return { status: 413, code: 'too_large', detail: TOO_LARGE };
  return null;
}

function refuse(request, response, { allow, after, ...refusal }) {
  const [type, text] = refusalText(request.headers, refusal);
  const headers = { 'content-type': type, 'cache-control': 'no-store', connection: 'close' };
  if (allow) headers.allow = allow;
  if (after) headers['retry-after'] = after;
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
