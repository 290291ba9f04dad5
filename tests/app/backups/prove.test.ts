import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { proveNow } from '#app/backups/prove.ts';
import { give } from '#app/server/answer-entry.ts';
import { openServerBook } from '#app/server/open-book.ts';
import { serverState, troubleNow } from '#app/server/state.ts';
import { fullBook, MARKS, withTextFlipped } from '#tests/support/book-file.ts';
import { tempFolder } from '#tests/support/temp.ts';

// The marker of server code, which only the framework's own bundler can judge.
vi.mock('server-only', () => ({}));

const WHOLE = fullBook();
let file: string;

beforeEach(() => {
  file = join(tempFolder(), 'lantern.book');
  vi.stubEnv('PELTRY_BOOK', file);
  vi.spyOn(console, 'error').mockReturnValue();
});
afterEach(() => {
  const here = serverState();
  here.book?.close();
  here.claim?.release();
  Object.assign(here, { book: undefined, claim: undefined, watch: undefined, trouble: null });
  vi.useRealTimers();
  vi.unstubAllEnvs();
  vi.restoreAllMocks();
});

const start = (from: string) => {
  copyFileSync(from, file);
  return openServerBook() ?? expect.fail('it was not opened');
};

describe('a book that is proved after the start', () => {
  it('and has one letter that is another is written to no more, which every page says, until the office lets it', async () => {
    const book = start(withTextFlipped(WHOLE, MARKS.note));
    expect(troubleNow()).toBeNull();
    await proveNow(file);
    expect(troubleNow()).toMatchObject({
      kind: 'damaged',
      title: 'The book does not prove whole: nothing is written.',
    });
    const envelope = { command: 'person.enrol', worker: 'a test', station: 'office', key: 'proved-1' } as const;
    const entry = { ...envelope, at: '2026-03-01T10:00:00.000Z', input: { name: 'Dee Elm' } };
    expect(give(book, entry)).toMatchObject({ stopped: { kind: 'damaged' } });
    // As “Let writing go on” opens it again.
    book.close();
    serverState().book = undefined;
    expect([openServerBook() !== undefined, troubleNow()]).toEqual([true, null]);
  });

  it('and is whole goes on, and nothing is said', async () => {
    start(WHOLE);
    await proveNow(file);
    expect([troubleNow(), vi.mocked(console.error).mock.calls]).toEqual([null, []]);
  });

  it('is proved some seconds after the start, by itself, and once', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout'] });
    start(withTextFlipped(WHOLE, MARKS.note));
    await vi.advanceTimersByTimeAsync(5000);
    vi.useRealTimers();
    await expect.poll(() => troubleNow()?.kind).toBe('damaged');
  });

  it('says nothing of another book that was opened meanwhile, or where the program could not run', async () => {
    start(WHOLE);
    await proveNow(`${file}.none`);
    vi.stubEnv('PELTRY_PROGRAMS', tempFolder());
    await proveNow(file);
    expect(troubleNow()).toBeNull();
    expect(console.error).toHaveBeenCalledWith(expect.stringContaining('could not be proved after the start'));
  });
});
