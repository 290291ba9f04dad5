import { describe, expect, it } from 'vitest';
import { decideBidsOver, decideClose, decideClosing, decideHandedIn, isLate } from '#lib/outcome/bid.ts';

const TWO = '2026-02-28T14:00:00Z';
const EARLY = '2026-02-28T13:59:59Z';
const times = { closeAt: TWO, closedAt: null, awardedAt: null, timeZone: 'UTC' } as const;
const SCENE = { kind: 'written', at: EARLY, handedInAt: undefined, ...times } as const;

describe('a written bid', () => {
  it('is handed in now while bids are taken, or at the time on its sheet', () => {
    expect(decideHandedIn(SCENE)).toEqual({ ok: true, value: EARLY });
    const typed = '2026-02-28T09:00:00Z';
    expect(decideHandedIn({ ...SCENE, handedInAt: typed })).toEqual({ ok: true, value: typed });
    expect(decideHandedIn({ ...SCENE, handedInAt: '2026-02-28T15:00:00Z' })).toMatchObject({ field: 'handedInAt' });
  });

  it('needs the time on its sheet once the bids are closed, told as the hall has it', () => {
    const after = { ...SCENE, at: '2026-02-28T14:00:00.000Z', timeZone: 'America/Denver' } as const;
    expect(decideHandedIn(after)).toMatchObject({
      ...{ ok: false, code: 'missing', field: 'handedInAt' },
      message: expect.stringContaining('closed at 7:00 AM. Enter when this sheet was handed in'),
    });
    expect(decideHandedIn({ ...after, handedInAt: EARLY })).toEqual({ ok: true, value: EARLY });
    expect(decideHandedIn({ ...after, handedInAt: TWO })).toEqual({ ok: true, value: TWO });
  });

  it('is not taken once the lots were awarded, whatever the time on its sheet', () => {
    const awarded = { ...SCENE, awardedAt: TWO, handedInAt: EARLY };
    expect(decideHandedIn(awarded)).toMatchObject({
      code: 'wrong_stage',
      message: 'The lots were awarded at 2:00 PM UTC: no more bids are taken down.',
    });
  });

  it('is late from the time that was set on, and after the moment of a closing by hand; moments, not texts', () => {
    const byClock = { closeAt: TWO, closedAt: null };
    expect(isLate(byClock, '2026-02-28T13:59:59.999Z')).toBe(false);
    expect(isLate(byClock, '2026-02-28T14:00:00.000Z')).toBe(true);
    const byHand = { closeAt: TWO, closedAt: '2026-02-28T13:00:00Z' };
    expect(isLate(byHand, '2026-02-28T13:00:00.000Z')).toBe(false);
    expect(isLate(byHand, '2026-02-28T13:00:00.001Z')).toBe(true);
    expect(isLate({ closeAt: null, closedAt: null }, '2099-01-01T00:00:00Z')).toBe(false);
  });

  it.each(['left', 'under'] as const)('of the kind %s is not bound by it', (kind) => {
    expect(decideHandedIn({ ...SCENE, kind, awardedAt: TWO, at: TWO })).toEqual({ ok: true, value: TWO });
  });

  it('has the time on its list where it was left and somebody types it, and none that has not come', () => {
    const left = { ...SCENE, kind: 'left' } as const;
    const typed = '2026-02-28T08:00:00Z';
    expect(decideHandedIn({ ...left, handedInAt: typed })).toEqual({ ok: true, value: typed });
    expect(decideHandedIn({ ...left, handedInAt: '2026-03-28T15:00:00Z' })).toMatchObject({ field: 'handedInAt' });
    expect(decideHandedIn({ ...left, kind: 'under', handedInAt: typed })).toEqual({ ok: true, value: SCENE.at });
  });
});

describe('the bids of a lot', () => {
  it.each([
    ['before the closing time', {}, [false, false, false]],
    ['at it', { at: '2026-02-28T14:00:00.000Z' }, [false, false, true]],
    ['where they were closed before it', { closedAt: '2026-02-28T13:00:00Z' }, [false, false, true]],
    ['where the lots are awarded', { closedAt: EARLY, awardedAt: EARLY }, [true, true, true]],
    ['where no time was set', { closeAt: null }, [false, false, false]],
  ])('decide it only once they are over: %s', (_, change, [accepts, passes, awards]) => {
    const open = { ...times, at: EARLY, ...change };
    expect(decideBidsOver(open, 'accept').ok).toBe(accepts);
    expect(decideBidsOver(open, 'pass').ok).toBe(passes);
    expect(decideBidsOver(open, 'award').ok).toBe(awards);
  });

  it.each([
    [{}, 'accepted'],
    [{ closeAt: null }, 'accepted'],
    [{ at: TWO }, 'already'],
    [{ closedAt: EARLY }, 'already'],
    [{ stage: 'intake' as const }, 'wrong_stage'],
    [{ bidding: 'floor' as const }, 'not_allowed'],
  ])('are closed by hand once: with %o it is %s', (change, ought) => {
    const decided = decideClose({ ...times, at: EARLY, bidding: 'sealed', stage: 'selling', ...change });
    expect(decided.ok ? 'accepted' : decided.code).toBe(ought);
  });
});

describe('the closing time', () => {
  const closing = { ...times, at: EARLY, bidding: 'sealed', closesAt: TWO, answerBy: null, reason: '' } as const;
  it.each([
    [{}, true],
    [{ answerBy: '2026-02-28T14:30:00Z' }, true],
    [{ answerBy: '2026-02-28T14:00:00Z' }, false],
    [{ closedAt: '2026-02-28T14:00:00Z' }, false],
    [{ awardedAt: '2026-02-28T14:00:00Z' }, false],
    [{ at: TWO }, false],
    [{ at: TWO, reason: 'the road was closed' }, true],
    [{ bidding: 'floor' as const }, false],
  ])('with %o is accepted: %s', (change, ok) => {
    expect(decideClosing({ ...closing, ...change }).ok).toBe(ok);
  });
});
