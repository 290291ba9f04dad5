import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { longDate, shortDate } from '#lib/date/date.ts';
import { readDate } from '#lib/date/typed-date.ts';

/** How dates are written in the United States: common practice, no source. */
describe('a date as people write it', () => {
  it.each([
    ...['2026-03-06', '2026-3-6', '2026/03/06', '3/6/2026', '03/06/2026', '3-6-2026', '3/6/26', ' 3/6/2026 '],
    ...['Mar 6, 2026', 'mar 6 2026', 'March 6, 2026', 'MARCH 6 2026', 'Mar. 6, 2026', 'March 6th, 2026', '6 Mar 2026'],
    ...['6 March 2026', '6-Mar-2026', '6th march 2026', 'Mar 06, 26', '2026.3.6'],
  ])('%j is March 6, 2026', (text) => {
    expect(readDate(text)).toEqual({ ok: true, value: '2026-03-06' });
  });

  it.each([
    ['28/2/2026', '2026-02-28'],
    ['28.2.2026', '2026-02-28'],
    ['2.28.2026', '2026-02-28'],
    ['5.5.2026', '2026-05-05'],
    ['Sept 9, 2026', '2026-09-09'],
    ['2/29/2028', '2028-02-29'],
  ])('%j has one reading: %s', (text, day) => {
    expect(readDate(text)).toEqual({ ok: true, value: day });
  });

  it.each([
    ['', 'missing', 'Enter the date, such as Feb 28, 2026.'],
    ['6.3.2026', 'malformed', '6.3.2026 can be Jun 3, 2026 or Mar 6, 2026: write the month as a word.'],
    ['3/6', 'malformed', 'Enter the year too, such as Feb 28, 2026.'],
    ['March 6', 'malformed', 'Enter the year too, such as Feb 28, 2026.'],
    ['2/29/2026', 'malformed', '2/29/2026 is not in the calendar: check the day and the month.'],
    ['13/13/2026', 'malformed', '13/13/2026 is not in the calendar: check the day and the month.'],
    ['Marbles 6, 2026', 'malformed', 'Enter the date, such as Feb 28, 2026 or 2/28/2026.'],
    ['next week', 'malformed', 'Enter the date, such as Feb 28, 2026 or 2/28/2026.'],
    ['20260306', 'malformed', 'Enter the date, such as Feb 28, 2026 or 2/28/2026.'],
  ])('%j is refused: %s', (text, code, message) => {
    expect(readDate(text)).toMatchObject({ ok: false, code, message });
  });

  it('is read back from every form in which dates are shown', () => {
    const day = fc.date({ min: new Date('1950-01-01'), max: new Date('2099-12-31'), noInvalidDate: true });
    fc.assert(
      fc.property(day, (date) => {
        const iso = date.toISOString().slice(0, 10);
        const [year = '', month = '', of = ''] = iso.split('-');
        for (const text of [
          iso,
          shortDate(iso),
          longDate(iso),
          `${month}/${of}/${year}`,
          `${of} ${longDate(iso).split(' ')[0]} ${year}`,
        ]) {
          expect(readDate(text)).toEqual({ ok: true, value: iso });
        }
      }),
    );
  });
});
