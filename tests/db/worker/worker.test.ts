import { describe, expect, it } from 'vitest';
import { replayLog } from '#db/book/replay.ts';
import { logLines } from '#db/verify/chain.ts';
import { openHall, rowsOf } from '#tests/support/hall.ts';

const MARK = 'a'.repeat(64);
const OTHER = 'c'.repeat(64);
const field = { name: 'Wren Tallow', passphraseMark: MARK };

describe('the workers of a book', () => {
  it('begin with somebody who has the office', () => {
    const { must, refuses } = openHall();
    refuses('worker.add', { ...field, stations: ['intake'] }, { code: 'missing', field: 'stations' });
    expect(must('worker.add', { ...field, stations: ['office', 'intake'] }).workerId).toBe(1);
    must('worker.add', { name: 'Odo', passphraseMark: OTHER, stations: ['intake'] });
  });

  it.each([
    [{ ...field, name: 'WREN  tállow', stations: ['till'] }, 'taken', 'name'],
    [{ ...field, name: ' ', stations: ['till'] }, 'malformed', 'name'],
    [{ ...field, name: 'x'.repeat(81), stations: ['till'] }, 'malformed', 'name'],
    [{ ...field, name: 'Odo', stations: [] }, 'malformed', 'stations'],
    [{ name: 'Odo', passphraseMark: 'open sesame', stations: ['till'] }, 'malformed', 'passphraseMark'],
  ] as const)('refuse %j', (input, code, named) => {
    const { must, refuses } = openHall();
    must('worker.add', { ...field, stations: ['office'] });
    refuses('worker.add', input, { code, field: named });
  });

  it('always keep one who has the office, and one who left gives no command', () => {
    const { book, must, refuses, give } = openHall();
    must('worker.add', { ...field, stations: ['office'] });
    refuses(
      'worker.amend',
      { workerId: 1, stations: ['office'], hasLeft: true },
      { code: 'not_allowed', field: 'stations' },
    );
    refuses(
      'worker.amend',
      { workerId: 1, stations: ['till'], hasLeft: false },
      { code: 'not_allowed', field: 'stations' },
    );
    must('worker.add', { name: 'Odo', passphraseMark: OTHER, stations: ['office'] });
    must('worker.amend', { workerId: 1, stations: ['till'], hasLeft: true });
    const again = give('association.set', { name: 'A' }, { worker: 'wren tallow' });
    expect(again).toMatchObject({ ok: false, code: 'not_allowed', message: expect.stringContaining('left') });
    expect(rowsOf(book).worker).toHaveLength(2);
  });

  it('give commands at their own stations only, whatever the command', () => {
    const { must, give } = openHall();
    must('worker.add', { ...field, stations: ['office'] });
    must('worker.add', { name: 'Odo', passphraseMark: OTHER, stations: ['intake'] });
    expect(give('association.set', { name: 'A' }, { worker: 'Odo' })).toMatchObject({ ok: false, code: 'not_allowed' });
    expect(give('person.enrol', { name: 'Hollis' }, { worker: 'Odo', station: 'intake' })).toMatchObject({ ok: true });
  });

  it('come out the same when the log is given again', () => {
    const { book, must } = openHall();
    must('worker.add', { ...field, stations: ['office', 'block'] });
    must('worker.passphrase', { workerId: 1, passphraseMark: OTHER });
    must('worker.amend', { workerId: 1, stations: ['office'], hasLeft: false });
    const replayed = replayLog(logLines(book.sqlite));
    expect(replayed.difference).toBeNull();
    expect(rowsOf(replayed.book).worker).toEqual(rowsOf(book).worker);
    replayed.book.close();
  });
});
