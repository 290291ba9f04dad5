import { describe, expect, it } from 'vitest';
import { EMPTY_HEAD, lineWithKey, logHead } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { checkChain } from '#db/verify/chain.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { actNo } from '#tests/faults/support/acts.ts';
import { chance, rounds } from '#tests/faults/support/chance.ts';
import { after, bundle, start } from '#tests/faults/support/child.ts';
import { openHall } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

// From the order to begin: opening takes the first few milliseconds, so that some kills hit it. Now and then a clerk
// lives long enough for the book to move its write-ahead log into the file while acts come in.
const LATEST_KILL_MS = 100;
const LATEST_LONG_KILL_MS = 700;
const LONG_EVERY = 10;

/** What was told before the kill: each act that was answered, with its line and whether it had been given before. */
type Told = readonly (readonly string[])[];

/**
 * A killed process loses nothing that the operating system has. What the disk has after the power fails is another
 * matter: for that the book asks for a full synchronisation, which no test can prove from inside.
 */
describe('a process that is killed while it gives commands', () => {
  const file = tempFile();
  const { below } = chance('kills between commands');
  const all = rounds(40);
  const seen = { answered: 0, kept: 0, early: 0 };
  let head = EMPTY_HEAD;
  /** Whether the act after the last one answered is in the log as well: it was in the air when the kill came. */
  let inTheAir = false;

  /** Opens the book after a kill and holds what is in it against what was told. */
  function inspect(told: Told) {
    const book = openBook(file);
    expect(book.sqlite.pragma('quick_check', { simple: true })).toBe('ok');
    const chain = checkChain(book.sqlite, head);
    expect(chain).toMatchObject({ ok: true, head: logHead(book) });
    head = chain.head;
    for (const [at, [number, line, repeated]] of told.entries()) {
      seen.answered += 1;
      expect(number).toBe(String(seen.answered));
      expect(String(lineWithKey(book, `act-${number}`)?.seq)).toBe(line);
      expect(repeated).toBe(String(at === 0 && inTheAir));
    }
    inTheAir = lineWithKey(book, `act-${seen.answered + 1}`) !== undefined;
    expect(lineWithKey(book, `act-${seen.answered + 2}`)).toBeUndefined();
    book.close();
    if (inTheAir) seen.kept += 1;
    if (told.length === 0) seen.early += 1;
  }

  it('leaves a whole book with every act that was answered, and none twice', { timeout: 3_600_000 }, async () => {
    openHall({ file }).book.close();
    const script = await bundle('tests/faults/support/clerk.ts');
    let child = start(script);
    for (let round = 1; round <= all; round += 1) {
      await child.ready;
      const following = start(script);
      child.begin({ file, next: seen.answered + 1 });
      await after(below(round % LONG_EVERY === 0 ? LATEST_LONG_KILL_MS : LATEST_KILL_MS));
      child.kill();
      inspect((await child.lines).map((line) => line.split(' ')));
      child = following;
    }
    child.kill();
    await child.lines;
    const { answered, kept, early } = seen;
    console.log(
      `${all} kills: ${answered} answered, ${kept} times the act in the air was kept, ${early} before the first`,
    );
    expect(answered).toBeGreaterThan(0);
  });

  it('leaves a book that verifies from its first line to its last', { timeout: 3_600_000 }, () => {
    const book = openBook(file);
    const acts = book.sqlite.prepare("SELECT key, worker, command FROM log WHERE key LIKE 'act-%' ORDER BY seq").all();
    expect(acts).toHaveLength(seen.answered + (inTheAir ? 1 : 0));
    // Each once, in the order of giving, and under the name of whoever gave it.
    for (const [at, act] of acts.entries()) {
      const { key, worker, command } = actNo(at + 1);
      expect(act).toEqual({ key, worker, command });
    }
    book.close();
    expect(verifyBook(file)).toMatchObject({ ok: true, problems: [] });
  });
});
