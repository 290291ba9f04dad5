import { describe, expect, it } from 'vitest';
import { denominationsOf } from '#lib/drawer/cash.ts';
import {
  type DrawerAct,
  type DrawerEntry,
  type DrawerKind,
  decideDrawer,
  decideDrawerClose,
  decideDrawerVoid,
  differenceInWords,
  isOpen,
  reckonDrawer,
  stintOf,
} from '#lib/drawer/drawer.ts';
import { STAGES } from '#lib/sale/stage.ts';
import { money } from '#tests/support/facts.ts';

interface Held {
  readonly checks?: string;
  readonly cards?: string;
  readonly other?: string;
}

const entry = (kind: DrawerKind, line: number, cash = '0', { checks, cards, other }: Held = {}): DrawerEntry => ({
  ...{ entryId: line, kind, line, cashCents: money(cash) },
  checksCents: checks === undefined ? null : money(checks),
  cardsCents: cards === undefined ? null : money(cards),
  otherCents: other === undefined ? null : money(other),
});

describe('the reckoning of a day', () => {
  const counted = entry('counted', 20, '104.50', { checks: '0', cards: '13.00' });
  const stint = [
    entry('opened', 10, '110.00'),
    entry('added', 16, '10.00'),
    entry('taken', 17, '40.00', { checks: '41.00', other: '3.00' }),
    counted,
    entry('added', 25, '99.00'),
  ];
  const moves = [
    { line: 9, method: 'cash', amountCents: money('77.00') },
    { line: 11, method: 'cash', amountCents: money('30.25') },
    { line: 12, method: 'check', amountCents: money('41.00') },
    { line: 13, method: 'cash', amountCents: money('-5.25') },
    { line: 14, method: 'card', amountCents: money('12.00') },
    { line: 15, method: 'other', amountCents: money('8.00') },
    { line: 26, method: 'cash', amountCents: money('50.00') },
  ] as const;
  const reckoned = () => reckonDrawer(stint, moves, counted);

  it('is by method, from the opening to the count and no further', () => {
    expect(reckoned()).toEqual([
      {
        ...{ method: 'cash', floatCents: 11_000, addedCents: 1000, takenCents: -4000, inCents: 3025, outCents: -525 },
        // 110.00 + 10.00 − 40.00 + 30.25 − 5.25.
        ...{ expectedCents: 10_500, countedCents: 10_450, differenceCents: -50 },
      },
      {
        ...{ method: 'check', floatCents: 0, addedCents: 0, takenCents: -4100, inCents: 4100, outCents: 0 },
        ...{ expectedCents: 0, countedCents: 0, differenceCents: 0 },
      },
      {
        ...{ method: 'card', floatCents: 0, addedCents: 0, takenCents: 0, inCents: 1200, outCents: 0 },
        ...{ expectedCents: 1200, countedCents: 1300, differenceCents: 100 },
      },
      {
        ...{ method: 'other', floatCents: 0, addedCents: 0, takenCents: -300, inCents: 800, outCents: 0 },
        // Nobody counted it, so it is neither even nor short.
        ...{ expectedCents: 500, countedCents: null, differenceCents: null },
      },
    ]);
  });

  it('goes on to now where nothing was counted', () => {
    // 105.00 as above, and 99.00 and 50.00 since.
    expect(reckonDrawer(stint, moves, null)[0]).toMatchObject({ expectedCents: 25_400, countedCents: null });
  });

  it('begins with an opening', () => {
    expect(() => reckonDrawer(stint.slice(1), moves, null)).toThrow(RangeError);
  });

  it('says in words what is over and what is short', () => {
    expect(reckoned().map(differenceInWords)).toEqual(['Cash short by 0.50', null, 'Cards over by 1.00', null]);
  });

  it('that is over or short is closed with a note only', () => {
    const lines = reckoned();
    const refused = decideDrawerClose(lines, ' ');
    expect(refused).toMatchObject({ code: 'missing', field: 'note' });
    expect(!refused.ok && refused.message).toContain('Cash short by 0.50, Cards over by 1.00:');
    expect(decideDrawerClose(lines, 'a quarter rolled under the table').ok).toBe(true);
    const even = lines.filter(({ method }) => method === 'check' || method === 'other');
    expect(decideDrawerClose(even, '').ok).toBe(true);
  });
});

describe('a stint of the drawer', () => {
  const kinds = (...all: DrawerKind[]) => all.map((kind, at) => entry(kind, at + 1));
  it.each([
    ['none before the first opening', kinds(), 0, false],
    ['none where it was never opened', kinds('taken'), 0, false],
    ['from the opening', kinds('opened', 'added', 'counted'), 3, true],
    ['just opened', kinds('opened'), 1, true],
    ['over once it is closed', kinds('opened', 'closed'), 2, false],
    ['from the last opening of several', kinds('opened', 'closed', 'opened', 'taken'), 2, true],
  ])('is %s', (_, entries, length, open) => {
    expect(stintOf(entries)).toEqual(entries.slice(entries.length - length));
    expect(isOpen(entries)).toBe(open);
  });
});

describe('an entry of the drawer', () => {
  const open = { stage: 'selling', open: true, denominations: denominationsOf('USD') } as const;
  const twenty = { denominationCents: money('20.00'), pieces: 2 };
  const ten = { denominationCents: money('10.00'), pieces: 1 };
  const nothing = [null, null, null];
  const act = (kind: DrawerKind, over: Partial<DrawerAct> = {}): DrawerAct => ({
    ...{ kind, pieces: [twenty], beside: nothing },
    ...over,
  });
  const codeOf = (decided: ReturnType<typeof decideDrawer>) => (decided.ok ? 'ok' : decided.code);

  it.each(['added', 'taken', 'counted', 'closed'] as const)('%s needs a drawer that is open', (kind) => {
    expect(codeOf(decideDrawer(open, act(kind)))).toBe('ok');
    expect(codeOf(decideDrawer({ ...open, open: false }, act(kind)))).toBe('not_allowed');
  });

  it('opens one that is not open', () => {
    expect(codeOf(decideDrawer(open, act('opened')))).toBe('already');
    expect(codeOf(decideDrawer({ ...open, open: false }, act('opened')))).toBe('ok');
  });

  it.each(STAGES)('is for every stage but closed: %s', (stage) => {
    expect(codeOf(decideDrawer({ ...open, stage }, act('counted')))).toBe(stage === 'closed' ? 'wrong_stage' : 'ok');
  });

  it('has each note and coin once, and only those that there are', () => {
    expect(codeOf(decideDrawer(open, act('counted', { pieces: [twenty, ten] })))).toBe('ok');
    expect(decideDrawer(open, act('counted', { pieces: [twenty, ten, twenty] }))).toMatchObject({
      code: 'malformed',
      message: expect.stringContaining('entered twice'),
    });
    const strange = { denominationCents: money('30.00'), pieces: 1 };
    expect(decideDrawer(open, act('counted', { pieces: [twenty, strange] }))).toMatchObject({
      code: 'malformed',
      message: expect.stringContaining('no bill or coin of 30.00'),
    });
  });

  it.each([
    ['added', 'put in'],
    ['taken', 'taken out'],
  ] as const)('of money that is %s says how much, in whatever it was', (kind, words) => {
    const checks = [money('41.00'), null, null];
    expect(decideDrawer(open, act(kind, { pieces: [] }))).toMatchObject({
      code: 'missing',
      message: expect.stringContaining(words),
    });
    expect(codeOf(decideDrawer(open, act(kind, { pieces: [], beside: checks })))).toBe('ok');
  });

  it('may find the drawer empty when it is counted', () => {
    expect(codeOf(decideDrawer(open, act('counted', { pieces: [] })))).toBe('ok');
  });
});

describe('taking back an entry of the drawer', () => {
  const newest = { stage: 'selling', voids: false, voided: false, newest: true } as const;
  it.each([
    [{}, 'ok'],
    [{ newest: false }, 'not_allowed'],
    [{ voided: true }, 'already'],
    [{ voids: true }, 'not_allowed'],
    [{ stage: 'closed' as const }, 'wrong_stage'],
  ])('where %o is %s', (over, ought) => {
    const decided = decideDrawerVoid({ ...newest, ...over });
    expect(decided.ok ? 'ok' : decided.code).toBe(ought);
  });
});
