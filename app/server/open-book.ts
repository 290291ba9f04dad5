import 'server-only';
import { mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { copyFolders } from '#app/backups/program.ts';
import { proveSoon } from '#app/backups/prove.ts';
import { startCopies } from '#app/backups/schedule.ts';
import { claimBook } from '#db/book/check-file.ts';
import { chainIn, copiesIn, copiesOff, lackingIn } from '#db/book/copies.ts';
import { restoreCommand, whyNoBook } from '#db/book/missing.ts';
import { type Book, NotABook, openBook, openToRead } from '#db/book/open.ts';
import { type Trouble, troubleOf, troubleOfBehind, troubleOfOpening } from '#db/book/trouble.ts';
import { watchFile } from '#db/book/watch-file.ts';
import { deposedBy, leadAmong, markDeposed, troubleOfDeposed } from '#db/follow/deposed.ts';
import { isOnlyFollowing } from '#db/follow/followed.ts';
import { momentIn } from '#db/sale/queries.ts';
import { tellWhoLed } from './lead.ts';
import { serverState } from './state.ts';

/**
 * Opens the book for this process to serve, or only to read where it cannot be written to, and notes what is the
 * matter. Gives nothing where it cannot even be read; throws unforeseen faults. `integrity` is the result of the
 * integrity check, if one was made already.
 */
export function openServerBook(integrity?: string): Book | undefined {
  const here = serverState();
  const file = bookPath();
  // Each try leaves a copy of the book beside it, and every page that somebody opens would be one.
  if (here.failedOn !== undefined && here.failedOn === fingerprintOf(file)) return undefined;
  const opened = tryToServe(file);
  if ('book' in opened) {
    here.trouble = damageOf(opened.book, integrity) ?? standIn(opened.book) ?? lossOf(opened.book);
    here.book = opened.book;
    here.watch = watchFile(file);
    startCopies(file);
    proveSoon(opened.book);
    tellWhoLed(opened.book);
    return here.book;
  }
  here.watch = undefined;
  here.trouble = opened.trouble;
  here.failedOn = opened.trouble.kind === 'not_updated' ? fingerprintOf(file) : undefined;
  here.book = tryToRead(file);
  return here.book;
}

/** Where the book is that this process is to serve. */
export function bookPath(): string {
  return resolve(process.env.PELTRY_BOOK ?? 'data/peltry.book');
}

const SAID = ['PELTRY_BOOK', 'PELTRY_BACKUPS', 'PELTRY_BACKUPS_SECOND'] as const;

/** Why there is no book to serve and none may be made, in lines for whoever started the program; null otherwise. */
export function whyNotServed(): string | null {
  const file = bookPath();
  const configured = SAID.some((name) => process.env[name] !== undefined);
  return whyNoBook(file, { configured, folders: copyFolders(file) });
}

function fingerprintOf(file: string): string {
  const found = statSync(file, { throwIfNoEntry: false });
  return found ? `${found.ino} ${found.size} ${found.mtimeMs}` : 'no file';
}

function tryToServe(file: string): { readonly book: Book } | { readonly trouble: Trouble } {
  const here = serverState();
  try {
    const why = whyNotServed();
    if (why !== null) throw new NotABook(why);
    mkdirSync(dirname(file), { recursive: true });
    here.claim ??= claimBook(file) ?? undefined;
    return here.claim ? { book: openBook(file, { create: true }) } : { trouble: troubleOf('two_servers') };
  } catch (fault) {
    const trouble = troubleOfOpening(fault);
    if (trouble) return { trouble };
    throw fault;
  }
}

/** Damage inside the file shows at once instead of in the middle of the sale; the check costs a second at 300 MB. */
function damageOf({ sqlite }: Book, integrity: string | undefined): Trouble | null {
  const first = integrity ?? sqlite.prepare('PRAGMA quick_check(1)').pluck().get();
  return first === 'ok' ? null : troubleOf('damaged');
}

/** Where another laptop leads the book, as far as is known here. */
const standIn = (book: Book) => deposition(book) ?? (isOnlyFollowing(book) ? troubleOf('follows') : null);

/** A book that another laptop leads: the mark beside it says so, or a backup that the leading laptop made. */
function deposition(book: Book): Trouble | null {
  const { file } = book;
  try {
    const copies = copyFolders(file).flatMap((folder) => copiesIn(folder, file));
    const lead = deposedBy(book) ?? leadAmong(copiesOff(copies, chainIn(book.sqlite)), book);
    if (!lead) return null;
    markDeposed(file, lead);
    return troubleOfDeposed(book, lead);
  } catch (fault) {
    const trouble = troubleOfOpening(fault);
    if (trouble) return trouble;
    throw fault;
  }
}

/** A book that lost its end is whole in itself: only a backup can tell. Nothing is added to it before that is settled. */
function lossOf(book: Book): Trouble | null {
  const { file } = book;
  const copies = copyFolders(file).flatMap((folder) => copiesIn(folder, file));
  const behind = lackingIn(copies, chainIn(book.sqlite));
  if (!behind) return null;
  const { whole } = behind;
  const words = { since: whole ? momentIn(book, whole.since) : '', restore: restoreCommand(whole?.file ?? '', file) };
  return troubleOfBehind(file, behind, words);
}

/** What can be shown of a book that this process must not write to; a damaged first page cannot even be read. */
function tryToRead(file: string): Book | undefined {
  const here = serverState();
  if (here.trouble?.kind !== 'read_only' && here.trouble?.kind !== 'two_servers') return undefined;
  try {
    const book = openToRead(file);
    if (book !== 'older') return book;
    here.trouble = troubleOf('older');
  } catch {
    // What is the matter is noted already.
  }
  return undefined;
}
