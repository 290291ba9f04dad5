import { describe, expect, it } from 'vitest';
import { logHead, newestLine } from '#db/book/log.ts';
import { type Book, openBookInMemory } from '#db/book/open.ts';
import { deposedBy, leadAmong } from '#db/follow/deposed.ts';
import { epochOf, takeoversOf } from '#db/follow/epoch.ts';
import { takeLines } from '#db/follow/follow.ts';
import { highestOf, isAbove, leadOf, sharedWith } from '#db/follow/lead.ts';
import { linesBehind } from '#db/follow/lines.ts';
import { withNoSignIns } from '#tests/db/support/passphrases.ts';
import { AT, giveTo, openHall } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

const SAID = { kind: 'takeover', laptop: 'table two', reason: ' the first fell ' } as const;

/** A second book with all lines of the first. */
function followerOf(first: Book): Book {
  const second = openBookInMemory();
  expect(takeLines(second, linesBehind(withNoSignIns(first), logHead(second).seq))).toMatchObject({ ok: true });
  return second;
}
const takeOver = (book: Book, over = {}) => giveTo(book, 'book.takeover', { input: { ...SAID, ...over } });

describe('a take-over', () => {
  it('begins the next epoch, also above one that was only heard of, and says which laptop and why', () => {
    const { book, must, refuses } = openHall();
    expect([epochOf(book), leadOf(book)]).toEqual([1, null]);
    expect(must('book.takeover', SAID)).toEqual({ epoch: 2 });
    expect(must('book.takeover', { ...SAID, above: 7, told: 'https://10.0.0.7:3443' })).toEqual({ epoch: 8 });
    expect(takeoversOf(book)).toMatchObject([
      { epoch: 8, told: 'https://10.0.0.7:3443' },
      { epoch: 2, kind: 'takeover', laptop: 'table two', reason: 'the first fell', at: AT, told: '' },
    ]);
    refuses('book.takeover', { ...SAID, laptop: ' ' }, { code: 'malformed', field: 'laptop' });
    refuses('book.takeover', { ...SAID, above: -1 }, { code: 'malformed', field: 'above' });
  });

  it('travels with the lines: whoever follows is of the same epoch', () => {
    const { book, must } = openHall();
    must('book.takeover', SAID);
    const second = followerOf(book);
    expect([epochOf(second), leadOf(second)]).toEqual([2, leadOf(book)]);
  });
});

describe('which of two laptops leads', () => {
  it('is the one of the higher epoch; of the same epoch the one with the longer history, seen from both sides', () => {
    const { book, must } = openHall();
    const [second, third] = [followerOf(book), followerOf(book)];
    must('person.enrol', { name: 'Only At The First' });
    takeOver(second);
    giveTo(third, 'person.enrol', { input: { name: 'Longer' } });
    takeOver(third);
    const [two, three] = [leadOf(second), leadOf(third)];
    if (!two || !three) throw new Error('Both of them lead.');
    expect([isAbove(two, book), isAbove(three, book)]).toEqual([true, true]);
    expect([isAbove(three, second), isAbove(two, third), isAbove(two, second)]).toEqual([true, false, false]);
    expect(highestOf([two, three])).toBe(three);
    expect(highestOf([])).toBeNull();
    takeOver(second);
    const above = leadOf(second);
    expect(above && isAbove(above, third)).toBe(true);
  });

  it('is never one of another book', () => {
    const other = openHall();
    other.must('book.takeover', { ...SAID, above: 50 });
    const lead = leadOf(other.book);
    const { book } = openHall();
    giveTo(book, 'person.enrol', { input: { name: 'Another' } });
    expect(lead && isAbove({ ...lead, book: 'f'.repeat(20) }, book)).toBe(false);
  });

  it('is not told by copies that cannot be read, or a book without a mark', () => {
    const { book } = openHall({ file: tempFile() });
    expect([leadAmong([`${book.file}.none`], book), deposedBy(book)]).toEqual([null, null]);
  });
});

describe('the last line that a deposed book shares with the leading one', () => {
  it.each([0, 1, 5])('is where the second stopped, with %i entries of the first behind it', (own) => {
    const { book, must } = openHall();
    for (let n = 0; n < 20; n += 1) must('person.enrol', { name: `Before ${n}` });
    const second = followerOf(book);
    for (let n = 0; n < own; n += 1) must('person.enrol', { name: `Lost ${n}` });
    takeOver(second);
    for (let n = 0; n < 9; n += 1) giveTo(second, 'person.enrol', { input: { name: `After ${n}` } });
    const lead = leadOf(second);
    expect(lead && newestLine(book) - sharedWith(book, lead)).toBe(own);
  });

  it('is found over several take-overs, and never behind where they parted', () => {
    const { book, must } = openHall();
    const second = followerOf(book);
    const shared = newestLine(book);
    must('person.enrol', { name: 'Lost' });
    takeOver(second);
    for (let n = 0; n < 30; n += 1) giveTo(second, 'person.enrol', { input: { name: `After ${n}` } });
    takeOver(second);
    const lead = leadOf(second);
    expect(lead && sharedWith(book, lead)).toBe(shared);
  });
});
