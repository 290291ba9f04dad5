import { describe, expect, it } from 'vitest';
import { log, person } from '#db/schema/index.ts';
import { localDay } from '#lib/date/date.ts';
import { ASSOCIATION } from '#seed/association.ts';
import { demoBook } from './demo-book.ts';

const { book } = demoBook();
const people = book.db.select().from(person).all();

describe('the people of the demo', () => {
  it('have telephone numbers and addresses that can be nobody’s', () => {
    // 555-0100 to 555-0199 are kept free for fiction (North American numbering plan); example.org by RFC 2606.
    expect(people.length).toBeGreaterThan(45);
    for (const { name, phone, email } of people) {
      expect(phone, name).toMatch(/^\d{3}-555-01\d\d$/);
      expect(email, name).toMatch(/^$|^[a-z0-9.]+@example\.org$/);
    }
    expect(new Set(people.map(({ phone }) => phone)).size).toBe(people.length);
  });

  it('are each in the book once, members under a number of their own', () => {
    expect(new Set(people.map(({ name }) => name)).size).toBe(people.length);
    const members = people.flatMap(({ memberNo }) => (memberNo === '' ? [] : [memberNo]));
    expect(new Set(members).size).toBe(members.length);
    expect(members.length).toBeGreaterThan(30);
  });
});

describe('the log of the demo', () => {
  const lines = book.db.select().from(log).orderBy(log.seq).all();

  it('never runs backwards, and each day’s entries stay within their day', () => {
    const times = lines.map(({ at }) => at);
    expect(times).toEqual([...times].sort());
    expect([...new Set(times.map((at) => localDay(at, ASSOCIATION.timeZone)))]).toEqual([
      '2024-02-24',
      '2025-02-22',
      '2026-02-21',
      '2026-11-21',
    ]);
  });

  it('tells who worked at which station', () => {
    const crew = new Map(lines.map(({ station, worker }) => [station, worker]));
    expect([...crew.keys()].sort()).toEqual(['block', 'intake', 'office', 'payout', 'till']);
  });
});
