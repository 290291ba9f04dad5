import 'server-only';
import type { Book } from '#db/book/open.ts';
import { deposedBy, markDeposed, troubleOfDeposed } from '#db/follow/deposed.ts';
import { epochOf, takeoversOf } from '#db/follow/epoch.ts';
import { isAbove, LEAD_COOKIE, type Lead, leadOf, readLead, sealLead } from '#db/follow/lead.ts';
import { tellLead } from '#db/follow/tell.ts';
import { ring, serverState } from './state.ts';

const KEPT_SECONDS = 400 * 24 * 60 * 60;
const TELL_EVERY_MS = 10_000;

/** Of the open book: what was said last, which is not judged again, and how it leads itself. */
interface Known {
  heard: string;
  own: { readonly epoch: number; readonly sealed: string } | undefined;
}
const place = globalThis as typeof globalThis & { peltryLead?: WeakMap<Book, Known>; peltryTelling?: NodeJS.Timeout };

function knownOf(book: Book): Known {
  place.peltryLead ??= new WeakMap();
  const known = place.peltryLead.get(book) ?? { heard: '', own: undefined };
  place.peltryLead.set(book, known);
  return known;
}

/** How this book leads, sealed; empty while nobody has taken it over. */
function ownLead(book: Book): string {
  const memory = knownOf(book);
  const epoch = epochOf(book);
  if (memory.own?.epoch === epoch) return memory.own.sealed;
  const said = leadOf(book);
  if (!said) return '';
  memory.own = { epoch, sealed: sealLead(book, said) };
  return memory.own.sealed;
}

const leadIn = (cookies: string): string =>
  cookies
    .split(/; */)
    .find((one) => one.startsWith(`${LEAD_COOKIE}=`))
    ?.slice(LEAD_COOKIE.length + 1) ?? '';

/**
 * Hears from the cookies of any request who leads the book. Where that is another laptop, nothing is written from this
 * very request on. Gives the `Set-Cookie` line by which a browser of the staff carries on what is so here, or nothing:
 * who only looks at the Board gets no cookie.
 */
export function hearLead(cookies = '', isEntry = false): string | undefined {
  const { book } = serverState();
  try {
    if (!book) return undefined;
    const said = leadIn(cookies);
    const memory = knownOf(book);
    if (said && said !== memory.heard) {
      memory.heard = said;
      const lead = readLead(book, said);
      if (lead && isAbove(lead, book)) stepDown(book, lead);
    }
    // Of a laptop that was deposed the browser learns nothing.
    if (!isEntry && !/(^|; *)(__Host-peltry|peltry-plain)=/.test(cookies)) return undefined;
    const own = serverState().trouble?.kind === 'deposed' ? '' : ownLead(book);
    return own && own !== said
      ? `${LEAD_COOKIE}=${own}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${KEPT_SECONDS}`
      : undefined;
  } catch (fault) {
    // A book that cannot be read takes no entries either.
    console.error(fault);
    return undefined;
  }
}

/** Writes nothing any more. Where the mark cannot be written the disk fails, and this holds as long as the program runs. */
function stepDown(book: Book, lead: Lead): void {
  serverState().trouble = troubleOfDeposed(book, lead);
  console.error(troubleOfDeposed(book, lead).title);
  try {
    markDeposed(book.file, lead);
  } catch (fault) {
    knownOf(book).heard = '';
    console.error(fault);
  }
  ring();
}

/** Who leads in the place of this server, or null: what the mark beside the book says. */
export function leadingElsewhere(): Lead | null {
  const { book, trouble } = serverState();
  return book && trouble?.kind === 'deposed' ? deposedBy(book) : null;
}

/** Says to the laptop that led before who leads now, again and again: it may be started anew at any time. */
export function tellWhoLed(book: Book): void {
  clearInterval(place.peltryTelling);
  const told = takeoversOf(book)[0]?.told;
  if (!told) return;
  const tell = () => {
    const own = serverState().book === book && serverState().trouble?.kind !== 'deposed' ? ownLead(book) : '';
    if (own) void tellLead(told, own);
  };
  place.peltryTelling = setInterval(tell, TELL_EVERY_MS).unref();
  tell();
}
