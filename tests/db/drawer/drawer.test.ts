import { describe, expect, it } from 'vitest';
import type { InputOf } from '#db/commands.ts';
import { drawerEntries, drawerMoves, drawerView } from '#db/drawer/queries.ts';
import { reckonDrawer, stintOf } from '#lib/drawer/drawer.ts';
import { openHall } from '#tests/support/hall.ts';

const twenties = (pieces: string) => ({ denomination: '20', pieces }) as const;
const quarters = (pieces: string) => ({ denomination: '0.25', pieces });

type Entry = InputOf<'drawer.record'>;

function drawer() {
  const hall = openHall();
  const { book, saleId, must } = hall;
  const record = (kind: Entry['kind'], over: Partial<Entry> = {}) => must('drawer.record', { saleId, kind, ...over });
  // Buyer 10 has bought nothing: what they pay is a deposit.
  const deposit = {
    saleId,
    direction: 'in',
    buyerNo: 10,
    method: 'cash',
    amount: '10.00',
    answered: ['more_than_owed'],
  } as const;
  const pay = (over: Partial<InputOf<'payment.record'>>) => must('payment.record', { ...deposit, ...over });
  const reckon = () => {
    const entries = drawerEntries(book, saleId);
    const count = entries.at(-1);
    return reckonDrawer(stintOf(entries), drawerMoves(book, saleId), count?.kind === 'counted' ? count : null);
  };
  return { ...hall, record, pay, reckon };
}

describe('the drawer', () => {
  it('is asked about before more cash goes out than it holds, and never says an amount below zero', () => {
    const { book, saleId, refuses, must, record, pay } = drawer();
    pay({ amount: '500.00' });
    record('opened', { pieces: [twenties('5')] });
    const out = { saleId, direction: 'out', buyerNo: 10, method: 'cash', amount: '300.00' } as const;
    const asked = refuses('payment.record', out, { code: 'needs_answer', field: 'more_than_drawer' });
    expect(asked).toContain('The drawer should hold 100.00; you pay 300.00 in cash. Is cash brought from elsewhere?');
    must('payment.record', { ...out, amount: '100.00' });
    must('payment.record', { ...out, amount: '200.00', answered: ['more_than_drawer'] });
    const { now } = drawerView(book, { id: saleId, currency: 'USD' } as never);
    expect(now.find(({ method }) => method === 'cash')?.expected).toBe('200.00 below zero');
  });

  it('holds its float and what was recorded since, by method, and says what is over or short', () => {
    const { saleId, must, record, pay, reckon } = drawer();
    pay({ amount: '99.00' });
    record('opened', { pieces: [twenties('5'), quarters('40')] });
    pay({ amount: '30.25' });
    pay({ amount: '41.00', method: 'check' });
    pay({ amount: '5.25', direction: 'out' });
    must('charge.add', { saleId, sellerNo: 1, kind: 'dues', amount: '25.00', how: 'cash' });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 11 });
    must('settlement.issue', { saleId, sellerNo: 1 });
    // A check to a seller is drawn on the bank, and was never in the drawer.
    must('payment.record', { saleId, direction: 'out', sellerNo: 1, method: 'check', amount: '70.00' });
    record('taken', { pieces: [twenties('2')], checks: '41.00', note: 'bank' });
    // 110.00 + 30.25 − 5.25 + 25.00 − 40.00 = 120.00 in cash.
    record('counted', { pieces: [twenties('5'), quarters('78')], checks: '0', cards: '1.00' });
    expect(reckon()).toMatchObject([
      {
        method: 'cash',
        floatCents: 11_000,
        takenCents: -4000,
        inCents: 5525,
        outCents: -525,
        expectedCents: 12_000,
        countedCents: 11_950,
        differenceCents: -50,
      },
      { method: 'check', takenCents: -4100, inCents: 4100, expectedCents: 0, countedCents: 0, differenceCents: 0 },
      { method: 'card', expectedCents: 0, countedCents: 100, differenceCents: 100 },
      { method: 'other', expectedCents: 0, countedCents: null, differenceCents: null },
    ]);
  });

  it('is counted against what was recorded by then, and a voided payment goes out again', () => {
    const { must, record, pay, reckon } = drawer();
    record('opened');
    const paid = pay({ amount: '20.00' });
    record('counted', { pieces: [twenties('1')] });
    must('payment.void', { paymentId: paid.paymentId, reason: 'wrong buyer' });
    expect(reckon()[0]).toMatchObject({ expectedCents: 2000, differenceCents: 0 });
    record('counted');
    expect(reckon()[0]).toMatchObject({ inCents: 2000, outCents: -2000, expectedCents: 0, differenceCents: 0 });
  });

  it('begins anew after it was closed', () => {
    const { saleId, refuses, record, pay, reckon } = drawer();
    record('opened', { pieces: [twenties('1')] });
    pay({});
    const short = { saleId, kind: 'closed', pieces: [twenties('1')] } as const;
    expect(refuses('drawer.record', short, { code: 'missing', field: 'note' })).toContain('Cash short by 10.00');
    record('closed', { pieces: [twenties('1')], note: 'a ten went for coffee' });
    record('opened', { pieces: [quarters('4')] });
    expect(reckon()[0]).toMatchObject({ floatCents: 100, expectedCents: 100 });
  });

  it('loses its newest entry with a reason, and no other', () => {
    const { book, saleId, must, refuses, record } = drawer();
    const opened = record('opened', { pieces: [twenties('1')] });
    const counted = record('counted');
    refuses('drawer.void', { entryId: opened.entryId, reason: 'slip' }, { code: 'not_allowed', field: 'entryId' });
    refuses('drawer.void', { entryId: counted.entryId, reason: ' ' }, { code: 'malformed', field: 'reason' });
    const voiding = must('drawer.void', { entryId: counted.entryId, reason: 'slip' });
    refuses('drawer.void', { entryId: counted.entryId, reason: 'slip' }, { code: 'already', field: 'entryId' });
    refuses('drawer.void', { entryId: voiding.entryId, reason: 'slip' }, { code: 'not_allowed', field: 'entryId' });
    refuses('drawer.void', { entryId: 99, reason: 'slip' }, { code: 'unknown', field: 'entryId' });
    expect(drawerEntries(book, saleId).map(({ kind }) => kind)).toEqual(['opened']);
  });

  const { saleId, refuses, refusesUntyped, record } = drawer();
  it.each([
    [{ kind: 'counted' }, 'not_allowed', 'kind'],
    [{ saleId: 9, kind: 'opened' }, 'unknown', 'saleId'],
    [{ kind: 'opened', pieces: [{ denomination: '30', pieces: '1' }] }, 'malformed', 'pieces'],
    [{ kind: 'opened', pieces: [twenties('1'), twenties('2')] }, 'malformed', 'pieces'],
    [{ kind: 'opened', pieces: [twenties('1.5')] }, 'malformed', 'pieces.0.pieces'],
    [{ kind: 'lost' }, 'malformed', 'kind'],
  ] as const)('refuses %j', (over, code, field) => {
    refusesUntyped('drawer.record', { saleId, ...over }, { code, field });
  });

  it('is opened once, and takes no empty move', () => {
    record('opened');
    refuses('drawer.record', { saleId, kind: 'opened' }, { code: 'already', field: 'kind' });
    refuses('drawer.record', { saleId, kind: 'taken', pieces: [twenties('')] }, { code: 'missing', field: 'pieces' });
  });

  it('stays shut in a closed sale', () => {
    openHall({ stage: 'closed' }).refuses('drawer.record', { saleId: 1, kind: 'opened' }, { code: 'wrong_stage' });
  });
});
