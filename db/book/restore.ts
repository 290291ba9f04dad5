/** Brings a book back from a backup: only whole, and never over another file. */
import { constants, copyFileSync, existsSync, renameSync, statSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { epochOf } from '#db/follow/epoch.ts';
import { forgetFollowed } from '#db/follow/followed.ts';
import { type Beginning, beginEpoch } from '#db/follow/take-over.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import { type BackupDone, throughDraft } from './backup.ts';
import { assertPresent } from './check-file.ts';
import { checksumBeside, sha256Of, syncFolderOf, syncToDisk } from './files.ts';
import { keepLocked } from './lock.ts';
import { type LogHead, logHead } from './log.ts';
import { openBook } from './open.ts';
import { isSealed, keyFor, unsealTo } from './seal.ts';

/** `logHead` is that of the backup, as it was read in the restored book; the line behind it begins the book's next epoch. */
interface RestoreDone extends BackupDone {
  readonly from: string;
  /** Whether a sum stood beside the backup to compare with. */
  readonly sha256Checked: boolean;
  /** Whether the head is the backup's. */
  readonly equal: boolean;
  readonly epoch: number;
}

export type RestoreReport = RestoreDone | Refusal;

/** Asked for the passphrase only where the backup is locked. */
export type AskPassphrase = () => Promise<string>;

/**
 * Restores the backup to a new book at `target`, after its sum, its chain, its pages and its replay were found good. Of a
 * locked one only the passphrase is needed; with it the copies of the restored book are locked from then on.
 */
export function restoreBook(
  backupFile: string,
  target: string,
  now: Date,
  ask: AskPassphrase = async () => '',
): Promise<RestoreReport> {
  const backup = resolve(backupFile);
  return throughDraft<RestoreReport>(target, async (draft, goal) => {
    const whole = decideBackup(backup);
    if (!whole.ok) return whole;
    if (!isSealed(backup)) {
      copyFileSync(backup, draft, constants.COPYFILE_EXCL);
      return restoreFrom(backup, draft, { goal, now });
    }
    const key = await keyFor(backup, await ask());
    if (!key.ok) return key;
    const opened = unsealTo(backup, draft, key.value);
    if (!opened.ok) return opened;
    const done = await restoreFrom(backup, draft, { goal, now });
    if (done.ok) keepLocked(goal, key.value);
    return done;
  });
}

/** A backup is one file. A book in use is two, and copying one of them would lose what is in the other. */
function decideBackup(backup: string): Result<null> {
  assertPresent(backup, false);
  const other = [`${backup}-wal`, `${backup}-journal`].find((name) => existsSync(name) && statSync(name).size > 0);
  if (other === undefined) return accept(null);
  const message = `${backup} is in use: ${other} holds a part of it. Make a backup of it, and restore that.`;
  return refuse('conflict', message);
}

/** `draft` is the copy beside the goal: what is proved is what is kept. */
async function restoreFrom(
  backup: string,
  draft: string,
  { goal, now }: { readonly goal: string; readonly now: Date },
): Promise<RestoreReport> {
  // A locked backup's sum is over the file as it lies there; what came out of it is proved piece by piece.
  const sha256 = await sha256Of(isSealed(backup) ? backup : draft);
  const beside = checksumBeside(backup);
  if (!beside.ok) return beside;
  if (beside.value !== null && beside.value !== sha256) {
    return refuse('malformed', `${backup} is damaged: its SHA-256 is not the one beside it. Use another backup.`);
  }
  const proof = verifyBook(draft);
  if (!proof.ok) {
    const why = proof.problems.join(' ').replaceAll(draft, backup);
    return refuse('malformed', `${backup} cannot be restored. ${why} Use another backup.`);
  }
  // Before the book has its name: a restored one that is served is always of its own epoch.
  const { head, epoch } = raiseEpoch(draft, { kind: 'restore', reason: `Restored from ${basename(backup)}.`, now });
  syncToDisk(draft);
  const { size: bytes } = statSync(draft);
  // What was followed here before is no sign of this book.
  forgetFollowed(goal);
  renameSync(draft, goal);
  syncFolderOf(goal);
  const equal = head.seq === proof.chain.head.seq && head.hash === proof.chain.head.hash;
  const sha256Checked = beside.value !== null;
  return { ok: true, file: goal, from: backup, sha256, sha256Checked, logHead: head, equal, bytes, epoch };
}

/** Gives the head as it was in the backup. */
function raiseEpoch(file: string, beginning: Beginning): { readonly head: LogHead; readonly epoch: number } {
  const book = openBook(file);
  try {
    const head = logHead(book);
    const begun = beginEpoch(book, beginning);
    return { head, epoch: begun.ok ? begun.value.epoch : epochOf(book) };
  } finally {
    book.close();
  }
}
