/** Holds a book against heads of its log that were written elsewhere: on a paper, or beside a backup. */
import { existsSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { aboutFile, type Chain, chainIn, copiesIn, readAbout } from '#db/book/copies.ts';
import { openQuietly } from '#db/book/open-for-reading.ts';
import { messageOf } from './chain.ts';

/** A line of the log and its hash, or the beginning of it: papers print 20 of its 64 digits. */
export interface PrintedHead {
  /** Where it was read: a file, or the command line. */
  readonly from: string;
  readonly line: number;
  /** 8 to 64 lower-case hex digits. */
  readonly hash: string;
}

export interface HeadReport extends PrintedHead {
  readonly ok: boolean;
  readonly message: string;
}

/** Reads `1234:89abcdef…`, with or without spaces in the hash; undefined where it is not that. */
export function readHead(text: string, from: string): PrintedHead | undefined {
  const found = /^(\d{1,15}):([0-9a-f]{8,64})$/.exec(text.replace(/\s/g, '').toLowerCase());
  return found ? { from, line: Number.parseInt(found[1] ?? '', 10), hash: found[2] ?? '' } : undefined;
}

/** The heads that stand in the words beside this file and beside its dated backups, here and in the folder of backups. */
export function headsBeside(file: string): PrintedHead[] {
  const folders = [dirname(file), join(dirname(file), 'backups')];
  const names = [file, ...folders.flatMap((folder) => copiesIn(folder, file)).map((copy) => copy.file)];
  return [...new Set(names)].flatMap((name): PrintedHead[] => {
    const about = existsSync(aboutFile(name)) ? readAbout(name) : null;
    return about ? [{ from: basename(aboutFile(name)), line: about.logHead.seq, hash: about.logHead.hash }] : [];
  });
}

/** Whether the book has each of these. A book that cannot be read agrees with none. */
export function compareHeads(file: string, heads: readonly PrintedHead[]): HeadReport[] {
  if (heads.length === 0) return [];
  try {
    const sqlite = openQuietly(file);
    try {
      const chain = chainIn(sqlite);
      return heads.map((head) => ({ ...head, ...compared(chain, head) }));
    } finally {
      sqlite.close();
    }
  } catch (fault) {
    return heads.map((head) => ({ ...head, ok: false, message: `The book cannot be read: ${messageOf(fault)}.` }));
  }
}

function compared({ head, hashAt }: Chain, { from, line, hash }: PrintedHead): Pick<HeadReport, 'ok' | 'message'> {
  const own = hashAt(line);
  if (own === undefined) {
    const lacks = line - head.seq;
    const message = `${from}: this book ends at line ${head.seq}. It lacks ${lacks} or more entries that were saved. Look for a backup that has line ${line}.`;
    return { ok: false, message };
  }
  if (own.startsWith(hash)) {
    return { ok: true, message: `${from}: this book agrees. Nothing up to line ${line} was changed or lost.` };
  }
  const message = `${from}: line ${line} of this book is another one. This book has another history than the one that was written down. Do not go on with it before you know why.`;
  return { ok: false, message };
}
