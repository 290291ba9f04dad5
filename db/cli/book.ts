import { backupBook } from '#db/book/backup.ts';
import { assertPresent } from '#db/book/check-file.ts';
import { keepCopy } from '#db/book/keep-copy.ts';
import { leaveBackupsOpen, lockBackups, locksBackups } from '#db/book/lock.ts';
import { restoreBook } from '#db/book/restore.ts';
import { keysOf, takeAuthority } from '#db/certificate/keep.ts';
import { isSealedBeside, noteRecoveryWords, openSealed } from '#db/certificate/sealed.ts';
import { epochInWords } from '#db/follow/epoch.ts';
import { compareHeads, headsBeside } from '#db/verify/heads.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { aheadInWords } from '#lib/backup/backups.ts';
import { askUnseen } from './ask.ts';
import { codeForOffice } from './network.ts';
import { serveHall } from './serve.ts';
import { failed, makeBook, type Subcommand, type Voice } from './subcommand.ts';

export const init: Subcommand = {
  name: 'init',
  says: 'makes an empty book; never over another file',
  run({ book: file }, voice) {
    const made = makeBook(file);
    if (!made.ok) return failed(voice, made.message);
    voice.say(`Made an empty book at ${file}.`);
    return 0;
  },
};

export const verify: Subcommand = {
  name: 'verify',
  takesHead: true,
  says: 'proves the book, and prints in JSON what it found; with --head, also against what a paper says',
  run({ book, heads: given }, voice) {
    const report = verifyBook(book);
    const heads = compareHeads(book, given.length > 0 ? given : headsBeside(book));
    const off = heads.filter(({ ok }) => !ok).map(({ message }) => message);
    const problems = [...report.problems, ...off];
    voice.say(JSON.stringify({ ...report, ok: problems.length === 0, problems, heads }, null, 2));
    return problems.length === 0 ? 0 : failed(voice, ...off);
  },
};

export const backup: Subcommand = {
  name: 'backup',
  takes: '<file>',
  says: 'copies the book to a new file, also while it is in use, with its SHA-256 beside it',
  async run({ book, path }, voice) {
    const done = await backupBook(book, path);
    if (!done.ok) return failed(voice, done.message);
    const { file, bytes, sha256, logHead, locked } = done;
    voice.say(
      `Backed up to ${file}${locked ? ', locked' : ''}: ${bytes} bytes, SHA-256 ${sha256}, log line ${logHead.seq} ${logHead.hash}.`,
    );
    return 0;
  },
};

export const keep: Subcommand = {
  name: 'keep',
  takes: '<folder>',
  says: 'makes a dated backup in a folder, and lets older ones go by the rule',
  async run({ book, path }, voice) {
    const done = await keepCopy(book, path, new Date());
    if (!done.ok) return failed(voice, done.message);
    const { file, sha256, logHead, letGo, ahead, proof, locked } = done;
    const gone = letGo.length === 0 ? '' : `; ${letGo.length} older ones let go`;
    voice.say(
      `Kept ${file}${locked ? ', locked' : ''}: SHA-256 ${sha256}, log line ${logHead.seq} ${logHead.hash}${gone}.`,
    );
    for (const { title, toDo } of ahead.map(aheadInWords)) voice.warn(`${title} ${toDo} docs/backups.md says how.`);
    if (proof.ok) return 0;
    return failed(voice, `This backup is not whole: ${proof.words} No older one was let go. Verify the book.`);
  },
};

const asked = (voice: Voice, question: string) => (voice.ask ?? askUnseen)(question);

/** What losing it means, wherever one is set. */
const LOST = 'Write it down and keep it away from the drive: without it nobody can open these backups, not even you.';

export const lock: Subcommand = {
  name: 'lock-backups',
  says: 'locks backups that leave the folder of the book with a passphrase, which it asks for twice',
  async run({ book }, voice) {
    assertPresent(book, false);
    const passphrase = await asked(voice, 'A passphrase for the backups');
    if (passphrase !== (await asked(voice, 'The same again')))
      return failed(voice, 'These were two different passphrases. Nothing was changed: try again.');
    const done = await lockBackups(book, passphrase);
    if (!done.ok) return failed(voice, done.message);
    voice.say(`From the next backup on those in other folders than that of the book are locked. ${LOST}`);
    return 0;
  },
};

export const unlock: Subcommand = {
  name: 'leave-backups-open',
  says: 'locks no further backup; those that are locked stay so',
  run({ book }, voice) {
    assertPresent(book, false);
    leaveBackupsOpen(book);
    voice.say('From now on backups are not locked. Whoever finds the drive can read them.');
    return 0;
  },
};

const JOIN_ANEW =
  'No authority of the certificates came along: each device joins anew, unless the folder that ends in .certificate is put beside this book before the start.';
const WORDS_WANTED =
  'A sealed authority lies beside this backup. Give the recovery words behind --words, with hyphens between (Office, Backups shows them; they should lie on paper); without them each device joins anew: --words none.';

export const restore: Subcommand = {
  name: 'restore',
  takes: '<file>',
  takesWords: true,
  takesHall: true,
  says: 'makes the book anew from a backup that proves whole; never over another file',
  async run({ book, path, words, hall }, voice) {
    // Asked before anything is made, so that the same command can be typed again with the words.
    if (words === undefined && isSealedBeside(path)) return failed(voice, WORDS_WANTED);
    const authority = words === undefined || words === 'none' ? undefined : openSealed(path, words);
    if (authority && !authority.ok) return failed(voice, authority.message);
    const ask = () => asked(voice, 'The passphrase of this backup');
    const done = await restoreBook(path, book, new Date(), ask);
    if (!done.ok) return failed(voice, done.message);
    if (!done.sha256Checked) voice.warn('No SHA-256 stood beside the backup to compare with.');
    if (!done.equal) {
      return failed(
        voice,
        `The restored book ends at log line ${done.logHead.seq}, which is not where the backup ends.`,
      );
    }
    voice.say(`Restored to ${done.file}: ${done.bytes} bytes, log line ${done.logHead.seq} ${done.logHead.hash}.`);
    voice.say(
      `From its first new entry on it leads (${epochInWords(done.epoch)}): the book that was served before takes none.`,
    );
    if (locksBackups(done.file)) voice.say('Its backups are locked with the same passphrase. Office, Backups says so.');
    if (authority) {
      const taken = takeAuthority(done.file, authority.value);
      if (!taken.ok) return failed(voice, taken.message);
      noteRecoveryWords(done.file, authority.value.words);
      voice.say(
        'It has the authority of the laptop that was backed up: devices that trust the one trust this one too.',
      );
    } else if (!keysOf(done.file, 'authority')) voice.say(JOIN_ANEW);
    await codeForOffice(done.file, voice);
    return hall ? serveHall(done.file) : 0;
  },
};
