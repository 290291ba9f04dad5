/** Makes a dated copy of a book, proves it by replay, and lets older ones go. Brings the code of all commands with it. */
import { randomBytes } from 'node:crypto';
import { existsSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { keepSealed } from '#db/certificate/sealed.ts';
import { timeZoneOfFile } from '#db/sale/queries.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { type AheadContext, type CopyHead, copiesToLetGo } from '#lib/backup/backups.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';
import { type BackupDone, backupBook, lockInto } from './backup.ts';
import {
  aboutFile,
  chainIn,
  copiesAhead,
  copiesIn,
  dropLeftDrafts,
  isIn,
  nameOfCopy,
  noteAbout,
  type Proof,
} from './copies.ts';
import { checksumFile, checksumLine, sha256Of, syncFolderOf, writeToDisk } from './files.ts';
import { keyForCopy, withOpenForm } from './lock.ts';
import { openQuietly } from './open-for-reading.ts';
import { isSealed } from './seal.ts';

export interface CopyKept extends BackupDone {
  /** The names of older copies that the rule let go. */
  readonly letGo: readonly string[];
  /** Whether the log of the copy, given again, makes what is in it. */
  readonly proof: Proof;
  /** The copies in the folder that have entries the book does not. */
  readonly ahead: readonly AheadContext[];
}

/**
 * Makes one dated copy of the book in a folder that is there, with its sum and its head beside it, proves it, then lets
 * older ones go. A folder that is missing is refused and not made: it may be a stick that nobody put in.
 * Throws where the disk fails.
 */
export async function keepCopy(book: string, folder: string, now: Date): Promise<CopyKept | Refusal> {
  const done = await backupBook(book, join(folder, nameOfCopy(book, now, folder)));
  if (!done.ok) return done;
  for (const one of [folder, dirname(resolve(book))]) dropLeftDrafts(one, book, now);
  keepSealed(book, folder);
  // Named before it is proved, which takes longer: whoever stops the program meanwhile has the copy.
  noteAbout(done, now);
  const looked = withOpenForm(book, done.file, (plain) => lookAt(plain, done, { book, folder, now }));
  if (!looked) return refuse('malformed', `${done.file} cannot be opened again. Use another drive.`);
  if (looked.proof.ok && done.locked) await lockOlder(folder, book);
  return { ...done, ...looked };
}

interface Kept {
  readonly book: string;
  readonly folder: string;
  readonly now: Date;
}

/** `plain` is the copy itself, or what a locked one holds. */
function lookAt(plain: string, done: BackupDone, { book, folder, now }: Kept): Omit<CopyKept, keyof BackupDone> {
  const proof = proofOf(plain);
  noteAbout(done, now, proof);
  const copy = openQuietly(plain);
  try {
    const chain = chainIn(copy);
    const inBook = ({ line, hash }: CopyHead) => isIn(chain, { seq: line, hash });
    const rule = { now: now.toISOString(), timeZone: timeZoneOfFile(plain), inBook };
    // Where the newest is not whole, an older one may be the last that is.
    const letGo = proof.ok ? thinOut(folder, book, rule) : [];
    return { proof, letGo, ahead: copiesAhead(copiesIn(folder, book), chain) };
  } finally {
    copy.close();
  }
}

/** Copies from before the passphrase was set are locked, too: one that lies open beside them gives all away. */
async function lockOlder(folder: string, book: string): Promise<void> {
  for (const { file, about } of copiesIn(folder, book)) {
    const goal = `${file}.locked`;
    const key = keyForCopy(book, goal);
    if (!key || !about || isSealed(file) || existsSync(goal)) continue;
    const draft = `${goal}.${randomBytes(4).toString('hex')}.partial`;
    try {
      if (!(await lockInto(file, { key, draft })).ok) continue;
      const done = { ok: true, file: goal, sha256: await sha256Of(draft), bytes: statSync(draft).size } as const;
      writeToDisk(checksumFile(goal), checksumLine(done.sha256, goal));
      noteAbout({ ...done, logHead: about.logHead }, new Date(about.at), about.proof);
      renameSync(draft, goal);
      syncFolderOf(goal);
      for (const one of [file, checksumFile(file), aboutFile(file)]) rmSync(one, { force: true });
    } finally {
      rmSync(draft, { force: true });
    }
  }
}

/** A bit that flipped in the book itself is in every copy of it, and only the log can tell. */
function proofOf(file: string): Proof {
  const { ok, problems, replay } = verifyBook(file);
  return { ok, words: ok ? replay.message : problems.join(' ') };
}

/**
 * Lets go of the copies that the rule does not keep; gives their names. The days of `kept` are those where the
 * association is, and its `inBook` asks a copy that was just made and proved, and that stays.
 */
function thinOut(folder: string, book: string, kept: Parameters<typeof copiesToLetGo>[1]): string[] {
  const copies = copiesIn(folder, book).map(({ name, at, about }) => {
    // One that did not prove whole stays, and takes the place of no other.
    const known = about && about.proof?.ok !== false ? about : null;
    return { name, at, head: known && { line: known.logHead.seq, hash: known.logHead.hash } };
  });
  const go = copiesToLetGo(copies, kept);
  for (const name of go) {
    const file = join(folder, name);
    for (const one of [file, checksumFile(file), aboutFile(file)]) rmSync(one, { force: true });
  }
  return go;
}
