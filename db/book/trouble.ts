/** What keeps a book from being written, or from being opened at all, in words for whoever stands before the screen. */

import { closeSync, fsyncSync, openSync, rmSync, writeSync } from 'node:fs';
import { counted } from '#lib/backup/backups.ts';
import { codeOf } from './check-file.ts';
import type { Behind, Proof } from './copies.ts';
import { CannotOpenBook, DamagedBook, FromNewerVersion, ReadOnlyBook, UpdateFailed } from './files.ts';

export type TroubleKind =
  | 'full'
  | 'read_only'
  | 'older'
  | 'disk'
  | 'moved'
  | 'behind'
  | 'deposed'
  | 'follows'
  | 'loss'
  | 'damaged'
  | 'newer'
  | 'not_a_book'
  | 'not_updated'
  | 'two_servers';

export interface Trouble {
  readonly kind: TroubleKind;
  readonly title: string;
  readonly happened: string;
  readonly safe: string;
  readonly toDo: string;
}

const WAITS = 'What was entered and is not marked as saved waits in the browsers, and goes in by itself afterwards.';
const UNTIL = 'Then somebody of the office presses “Let writing go on” on the page “What is the matter”.';

type Words = Omit<Trouble, 'kind'>;

const WORDS: Readonly<
  Record<Exclude<TroubleKind, 'moved' | 'behind' | 'deposed' | 'loss' | 'newer' | 'not_a_book' | 'not_updated'>, Words>
> = {
  full: {
    title: 'The disk is full: nothing is written.',
    happened: 'An entry could not be written because the disk of this laptop has no room left.',
    safe: `Every entry that was marked as saved is in the book, and can be read. ${WAITS}`,
    toDo: `Make room: empty the wastebasket, move films and pictures away; nothing beside the book. ${UNTIL}`,
  },
  read_only: {
    title: 'The book cannot be written to.',
    happened: 'The book’s file or its disk is locked against writing.',
    safe: `Everything in the book can be read. ${WAITS}`,
    toDo: `Unlock the disk or allow the file to be written, or restore the newest backup to another disk. ${UNTIL}`,
  },
  older: {
    title: 'The book is older than the program, and cannot be written to.',
    happened: 'The book has to be brought up to date first, and its file or its disk is locked against writing.',
    safe: `The file was left as it was. ${WAITS}`,
    toDo: 'Unlock the disk or allow the file to be written, or copy the book to another disk and start with the copy.',
  },
  disk: {
    title: 'The disk failed: nothing is written.',
    happened: 'Writing to the disk failed. It may be breaking, or its cable may be loose.',
    safe: `Every entry that was marked as saved was on the disk before. ${WAITS}`,
    toDo: `Make a backup to another disk now. If this happens again, go on from that backup on another laptop. ${UNTIL}`,
  },
  damaged: {
    title: 'The book’s file is damaged: nothing is written.',
    happened: 'Parts of the file are not what was written there. Figures on the screens may be incomplete.',
    safe: 'The backups are not touched by this. Do not pay anybody out by these screens.',
    toDo: 'Stop the program, move the damaged file aside, and restore the newest backup: docs/backups.md says how.',
  },
  follows: {
    title: 'This is the copy of a second laptop: nothing is written here yet.',
    happened: 'This book follows another laptop, and has not taken over from it. Both would take entries.',
    safe: 'Everything that came over can be read.',
    toDo: 'Go on at the first laptop. Where that has failed: stop the program here, type take-over as docs/backups.md says, and start again.',
  },
  two_servers: {
    title: 'Another Peltry on this laptop has this book open: this one only reads.',
    happened: 'The program was started twice on the same book.',
    safe: 'Nothing is wrong with the book. What is entered in the other window goes in.',
    toDo: 'Close this one and go on in the other. If there is no other, stop the program everywhere and start it once.',
  },
};

/** The trouble behind a fault of the disk or the database while the book is written; null for any other fault. */
export function troubleOfWriting(fault: unknown): Trouble | null {
  const kind = kindOfCode(codeOf(fault));
  return kind === null ? null : { kind, ...WORDS[kind] };
}

function kindOfCode(code: string): 'full' | 'read_only' | 'disk' | 'damaged' | null {
  if (code === 'SQLITE_FULL' || code === 'ENOSPC') return 'full';
  if (code.startsWith('SQLITE_READONLY') || code === 'EROFS') return 'read_only';
  if (code.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB') return 'damaged';
  return code.startsWith('SQLITE_IOERR') || code.startsWith('SQLITE_CANTOPEN') || code === 'EIO' ? 'disk' : null;
}

/** The trouble of a file that cannot be opened as a book, in its own sentence; null for any other fault. */
export function troubleOfOpening(fault: unknown): Trouble | null {
  if (fault instanceof ReadOnlyBook) return { kind: 'read_only', ...WORDS.read_only };
  if (fault instanceof DamagedBook) return { kind: 'damaged', ...WORDS.damaged, happened: fault.message };
  if (!(fault instanceof CannotOpenBook)) return troubleOfWriting(fault);
  const said = { happened: fault.message, safe: 'The file was left as it was.' };
  if (fault instanceof FromNewerVersion) {
    const toDo = 'Start the newer version of the program, or restore a backup that this version made.';
    return { kind: 'newer', title: 'This book is from a newer version of the program.', ...said, toDo };
  }
  if (fault instanceof UpdateFailed) {
    const toDo = 'Go on with the version that wrote the book. A copy from before stands beside it.';
    return { kind: 'not_updated', title: 'The book could not be brought up to date.', ...said, toDo };
  }
  const toDo = 'Start the program with the right file, or restore a backup: docs/backups.md says how.';
  return { kind: 'not_a_book', title: 'There is no book to open.', ...said, toDo };
}

export function troubleOf(kind: keyof typeof WORDS): Trouble {
  return { kind, ...WORDS[kind] };
}

/** The trouble of a book whose pages can be read and do not prove, such as where a bit flipped in a price. */
export function troubleOfProof(problems: readonly string[]): Trouble {
  return {
    kind: 'damaged',
    title: 'The book does not prove whole: nothing is written.',
    happened: `Its log, given again from the first line, does not make what is in the book. ${problems.slice(0, 3).join(' ')}`,
    safe: `The backups are not touched by this. ${WAITS}`,
    toDo: `Do not pay anybody out by these screens. Stop the program, move the book aside, and restore the newest backup that the page Backups calls whole: docs/backups.md says how. To go on with the book as it is until the sale is over, somebody of the office presses “Let writing go on” on the page “What is the matter”.`,
  };
}

/** What became of copying a book whose file is gone, and of replaying the copy; without `proof` that still runs. */
type Rescue = { readonly file: string; readonly proof?: Proof } | { readonly why: string };

/**
 * The trouble of a book whose file is not in its place any more. The program still has it open, and copies it: `copy` is
 * the copy's file, or the words of why there is none; undefined while it is being made.
 */
export function troubleOfMoved(happened: string, copy?: Rescue): Trouble {
  return {
    kind: 'moved',
    title: 'The book’s file is not in its place: nothing is written.',
    happened,
    safe: `${rescued(copy)} ${WAITS}`,
    toDo: afterMoving(copy),
  };
}

const STILL_OPEN = 'Every entry that was marked as saved is still open in this program.';

function rescued(copy: Rescue | undefined): string {
  if (copy === undefined) return `${STILL_OPEN} A copy of all of it is being made now.`;
  if ('why' in copy) return `${STILL_OPEN} It could not be copied: ${copy.why}`;
  const { file, proof } = copy;
  const replayed = !proof ? 'It is being replayed now.' : proof.ok ? 'Replaying it gave the same book.' : proof.words;
  return `Every entry that was marked as saved is in this copy, which was read back: ${file}. ${replayed}`;
}

function afterMoving(copy: Rescue | undefined): string {
  if (copy === undefined) return 'Do not stop the program yet. Reload this page until it names the copy.';
  if ('why' in copy) {
    return 'Do not stop the program. Put all files that were moved back in their places, with the names they had. Then somebody of the office presses “Let writing go on” on the page “What is the matter”. Where that does not help, ask somebody who knows computers before you stop it.';
  }
  if (copy.proof?.ok === false) {
    return `Do not stop the program. The copy ${copy.file} does not prove whole: ask somebody who knows computers before you restore it.`;
  }
  return `Stop the program, and move what is left of the book to another folder: its file and those that end in -wal and -shm. Delete nothing. Restore the copy ${copy.file}, and start again: docs/backups.md says how. If all files were only moved, put them back with the names they had, and press “Let writing go on” on the page “What is the matter”.`;
}

/** The trouble of a book that lacks entry `line`, or has another one there, which a browser was told is saved. */
export function troubleOfLoss({ line, ends }: { readonly line: number; readonly ends: number }): Trouble {
  const happened =
    line > ends
      ? `This browser was told that entry ${line} is saved. The book at this address ends at entry ${ends}.`
      : `This browser was told that entry ${line} is saved. The book at this address has another entry in its place.`;
  return {
    kind: 'loss',
    title: 'The book at this address lacks entries that were saved. Stop and tell the office.',
    happened,
    safe: 'Nothing from this browser goes into this book meanwhile. What was entered and is not marked as saved waits here.',
    toDo: 'The office looks first whether the right book is served, and whether another laptop or a backup has more. If the book was restored, or a second laptop took over, and what it lacks is known: enter that again by hand, and somebody of the office presses “Let writing go on” on the page “What is the matter”.',
  };
}

/**
 * The trouble of a book that lacks entries which a backup has: it lost its end, or another file was put in its place.
 * `since` is the time of the first one in words, `restore` what to type to bring the backup back, on a line of its own.
 */
export function troubleOfBehind(
  book: string,
  { whole, damaged }: Behind,
  { since, restore }: { readonly since: string; readonly restore: string },
): Trouble {
  const passed = damaged.length === 0 ? '' : ` Backups with more entries that are damaged: ${damaged.join(', ')}.`;
  const stay =
    'To go on with the book as it is, move each backup named here to another folder, and press “Let writing go on” on the page “What is the matter”.';
  const said = { kind: 'behind', title: 'The book lacks entries that a backup has: nothing is written.' } as const;
  if (!whole) {
    const happened = `A backup was made when the book had entries that it does not have now, and no such backup is whole.${passed}`;
    const toDo = `Look for a whole backup in other places, such as a stick, and restore that. ${stay}`;
    return { ...said, happened, safe: `Nothing was changed in the book or in the backups. ${WAITS}`, toDo };
  }
  const { file, more, fewer } = whole;
  const lacks = `The book lacks ${counted(more)} that the backup ${file} has. The first was made on ${since}.`;
  const own = fewer === 0 ? '' : ` The book has ${counted(fewer)} of its own that the backup does not.`;
  const aside = `move the book (${book} and, where they are there, the files that end in -wal and -shm) to another folder, and delete nothing`;
  const parted = fewer === 0 ? '' : 'Then enter by hand what only the other book has. ';
  return {
    ...said,
    happened: `${lacks}${own}${passed}`,
    safe: `The backup is as it was written. Nothing was changed in the book or in the backups. ${WAITS}`,
    toDo: `Stop the program, ${aside}. Type this, and start again:\n${restore}\n${parted}${stay}`,
  };
}

/** Less free room than this is used up again before anybody has gone back to their table. */
const ROOM_BYTES = 8 * 1024 * 1024;

/**
 * Writes, synchronises and takes away a file beside the book, to see that writing works again.
 * @throws what the disk says where it does not.
 */
export function probeDisk(book: string): void {
  const file = `${book}-probe`;
  try {
    const descriptor = openSync(file, 'w');
    try {
      const piece = Buffer.alloc(1024 * 1024);
      for (let written = 0; written < ROOM_BYTES; ) written += writeSync(descriptor, piece);
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
  } finally {
    rmSync(file, { force: true });
  }
}
