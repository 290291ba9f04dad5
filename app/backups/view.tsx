import 'server-only';
import { Notice } from '#app/ui/notice.tsx';
import { chainIn, copiesAhead, copiesIn, isIn } from '#db/book/copies.ts';
import { locksBackups } from '#db/book/lock.ts';
import type { Book } from '#db/book/open.ts';
import { aheadInWords, backupsInWords } from '#lib/backup/backups.ts';
import { copyFolders, copySettings } from './program.ts';
import { lastTried } from './schedule.ts';

const SHOWN = 8;

/** The backups of the open book, folder by folder, in words. */
export function backupsView(book: Book) {
  const { folder, second, minutes } = copySettings(book.file);
  const folders = [viewOf(book, folder, 'On this laptop')];
  if (second !== undefined) folders.push(viewOf(book, second, 'In the second place'));
  const often =
    minutes === 0
      ? 'No backup is made by itself: PELTRY_BACKUP_MINUTES is 0.'
      : `A backup is made every ${minutes === 1 ? 'minute' : `${minutes} minutes`} while entries come in, and when the sale changes its stage.`;
  const where = second === undefined ? ' Only one place is set: set a second one, such as a stick.' : '';
  const locks = locksBackups(book.file);
  const lock = locks
    ? 'Backups outside the folder of the book are locked: only the passphrase opens them on another laptop.'
    : 'Backups on a drive are not locked: whoever finds it can read names, addresses and prices.';
  return { rule: `${often} All of today are kept, then one a day, then one a week.${where}`, folders, lock, locks };
}

/** What to say, wherever somebody looks first, of each backup that has entries the book does not; of all places. */
export function backupsAhead(book: Book): FolderView['ahead'] {
  const chain = chainIn(book.sqlite);
  return copyFolders(book.file).flatMap((one) => copiesAhead(copiesIn(one, book.file), chain).map(aheadInWords));
}

type FolderView = ReturnType<typeof viewOf>;

export type CopyLine = FolderView['copies'][number];

/** One folder: how it stands in words, its newest backups, and how many `more` are kept that are not shown. */
function viewOf(book: Book, folder: string, title: string) {
  const { minutes } = copySettings(book.file);
  const chain = chainIn(book.sqlite);
  const found = copiesIn(folder, book.file);
  const all = found.map(({ name, at, about }) => ({
    ...{
      name,
      at,
      isLocked: name.endsWith('.locked'),
      line: about?.logHead.seq ?? null,
      sha256: about?.sha256 ?? null,
    },
    inBook: about !== null && isIn(chain, about.logHead),
    proof: about?.proof ?? null,
  }));
  const tried = lastTried(folder);
  const [last] = all;
  const notWhole = last?.proof?.ok === false ? `${last.name} is not whole: ${last.proof.words}` : null;
  const failed = tried && !tried.ok ? tried.words : notWhole;
  const now = new Date().toISOString();
  const ahead = copiesAhead(found, chain).map(aheadInWords);
  const newest = last ? { ...last, beaten: ahead.length > 0 } : null;
  const words = backupsInWords({ now, newest, line: chain.head.seq, minutes, failed });
  return { folder, title, ...words, ahead, copies: all.slice(0, SHOWN), more: Math.max(0, all.length - SHOWN) };
}

/** Each backup that has entries the book does not, with what to do: nobody should go on entering before that is done. */
export function Ahead({ ahead }: Pick<FolderView, 'ahead'>) {
  return ahead.map(({ title, toDo }) => (
    <Notice key={title} kind="stop" title={title}>
      <p>
        {toDo} <a href="/help/backups">How to restore</a>
      </p>
    </Notice>
  ));
}
