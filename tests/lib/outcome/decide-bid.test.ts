import { describe, expect, it } from 'vitest';
import { decideBidInTime, decideBidsOver, decideClosing } from '#lib/outcome/bid.ts';

const SCENE = {
  kind: 'written',
  at: '2026-02-28T13:59:59Z',
  closeAt: '2026-02-28T14:00:00Z',
  closedAt: null,
  timeZone: 'UTC',
} as const;

describe('a written bid', () => {
  it('counts until the last second before the closing time, and not at it', () => {
    expect(decideBidInTime(SCENE)).toEqual({ ok: true, value: null });
    expect(decideBidInTime({ ...SCENE, at: '2026-02-28T14:00:00Z' })).toMatchObject({ ok: false, code: 'wrong_stage' });
  });

  it('compares moments and not texts', () => {
    expect(decideBidInTime({ ...SCENE, at: '2026-02-28T13:59:59.999Z' }).ok).toBe(true);
    expect(decideBidInTime({ ...SCENE, at: '2026-02-28T14:00:00.000Z' }).ok).toBe(false);
  });

  it('is not taken once the lots were awarded, whatever the time said', () => {
    expect(decideBidInTime({ ...SCENE, closeAt: null, closedAt: '2026-02-28T13:00:00Z' })).toMatchObject({
      message: 'The bids were closed at 1:00 PM UTC: no more bids are taken.',
    });
  });

  it('is told the time as the hall has it', () => {
    const inDenver = { ...SCENE, at: '2026-02-28T15:00:00Z', timeZone: 'America/Denver' };
    const early = 'The bids closed at 7:00 AM: this one comes too late.';
    expect(decideBidInTime(inDenver)).toMatchObject({ message: early });
    const closed = { ...inDenver, closedAt: '2026-03-01T03:00:00Z' };
    expect(decideBidInTime(closed)).toMatchObject({
      message: 'The bids were closed at 8:00 PM: no more bids are taken.',
    });
    const closing = { bidding: 'sealed', closesAt: null, answerBy: null, timeZone: 'America/Denver' } as const;
    expect(decideClosing({ ...closing, closedAt: '2026-03-01T03:00:00Z' })).toMatchObject({
      message: 'The bids were closed at 8:00 PM: the time stays as it is.',
    });
  });

  it.each(['left', 'under'] as const)('a bid of the kind %s is not bound by it', (kind) => {
    expect(decideBidInTime({ ...SCENE, kind, at: '2026-02-28T15:00:00Z' }).ok).toBe(true);
  });
});

describe('the bids of a lot', () => {
  const times = { at: '2026-02-28T13:59:59Z', closeAt: '2026-02-28T14:00:00Z', closedAt: null };
  const open = { ...times, timeZone: 'UTC' };
  it.each([
    ['before the closing time', {}, [false, false, false]],
    ['at it', { at: '2026-02-28T14:00:00.000Z' }, [true, true, true]],
    ['where they were closed before it', { closedAt: '2026-02-28T13:00:00Z' }, [true, true, true]],
    ['where no time was set', { closeAt: null }, [false, false, true]],
  ])('decide it only once they are over: %s', (_, change, [accepts, passes, awards]) => {
    expect(decideBidsOver({ ...open, ...change }, 'accept').ok).toBe(accepts);
    expect(decideBidsOver({ ...open, ...change }, 'pass').ok).toBe(passes);
    expect(decideBidsOver({ ...open, ...change }, 'award').ok).toBe(awards);
  });
});

describe('the closing time', () => {
  const times = { closedAt: null, closesAt: '2026-02-28T14:00:00Z', answerBy: null, timeZone: 'UTC' };
  const closing = { bidding: 'sealed', ...times } as const;
  it.each([
    [{}, true],
    [{ answerBy: '2026-02-28T14:30:00Z' }, true],
    [{ answerBy: '2026-02-28T14:00:00Z' }, false],
    [{ closedAt: '2026-02-28T14:00:00Z' }, false],
    [{ bidding: 'floor' as const }, false],
  ])('with %o is accepted: %s', (change, ok) => {
    expect(decideClosing({ ...closing, ...change }).ok).toBe(ok);
  });
});
