import { describe, expect, it } from 'vitest';
import { AT, openHall } from '#tests/support/hall.ts';

const HASH = 'a'.repeat(64);
const OTHER = 'b'.repeat(64);
const later = (minutes: number) => ({ at: new Date(Date.parse(AT) + minutes * 60_000).toISOString() });

describe('a one-time code', () => {
  it('opens once, until its time is up, for the person it was made for', () => {
    const hall = openHall();
    expect(hall.must('member.code', { personId: 2, codeHash: HASH, minutes: 10 })).toEqual({
      personId: 2,
      endsAt: '2026-02-28T10:10:00.000Z',
    });
    const entered = hall.give('member.enter', { codeHash: HASH }, later(9));
    expect(entered).toMatchObject({ ok: true, value: { personId: 2 } });
    hall.refuses('member.enter', { codeHash: HASH }, { code: 'not_allowed', field: 'code' });
  });

  it('is refused in the same words when it is wrong, used, late or was followed by another', () => {
    const hall = openHall();
    const wrong = hall.refuses('member.enter', { codeHash: HASH }, { code: 'not_allowed' });
    hall.must('member.code', { personId: 1, codeHash: HASH, minutes: 10 });
    expect(hall.give('member.enter', { codeHash: HASH }, later(10))).toMatchObject({ ok: false, message: wrong });
    hall.must('member.code', { personId: 1, codeHash: OTHER, minutes: 60 });
    expect(hall.refuses('member.enter', { codeHash: HASH }, { code: 'not_allowed' })).toBe(wrong);
    expect(hall.must('member.enter', { codeHash: OTHER })).toEqual({ personId: 1 });
  });

  it('is good for ten minutes to a day, for somebody of the book, and drawn anew each time', () => {
    const hall = openHall();
    const asked = { personId: 1, codeHash: HASH, minutes: 10 };
    hall.refuses('member.code', { ...asked, minutes: 9 }, { code: 'malformed', field: 'minutes' });
    hall.refuses('member.code', { ...asked, minutes: 1441 }, { code: 'malformed', field: 'minutes' });
    hall.refuses('member.code', { ...asked, personId: 99 }, { code: 'unknown', field: 'personId' });
    hall.refuses('member.code', { ...asked, codeHash: 'ABCD-EFGH' }, { code: 'malformed', field: 'codeHash' });
    hall.must('member.code', asked);
    hall.refuses('member.code', asked, { code: 'taken', field: 'codeHash' });
  });
});
