import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { drawerMoves } from '#db/drawer/queries.ts';
import { takingsView } from '#db/payment/takings.ts';
import { balanceView, closingFacts, closingsOf } from '#db/report/closing.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { sumCents, sumOf, ZERO } from '#lib/money/money.ts';
import { TAKING_KINDS, takenOf } from '#lib/payment/taking.ts';
import { moneyProblems } from '#lib/report/balance.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { revenueOf } from '#lib/report/revenue.ts';
import { hallOf, openHall } from '#tests/support/hall.ts';
import { closeSale } from '#tests/support/sales.ts';

const raffle = { saleId: 1, kind: 'raffle', amount: '41.00' } as const;

/** A raffle in cash, food by card, and a hat by check that was typed twice. */
function takings() {
  const hall = openHall();
  const { must } = hall;
  must('taking.record', raffle, 'till');
  must('taking.record', { saleId: 1, kind: 'food', method: 'card', amount: '17.25' }, 'till');
  const hat = { saleId: 1, kind: 'other', method: 'check', amount: '30.00', note: 'a hat, check 77' } as const;
  must('taking.record', hat, 'till');
  const { takingId } = must('taking.record', hat, 'office');
  must('taking.void', { takingId, reason: 'typed twice' }, 'till');
  return hall;
}

describe('taking.record', () => {
  it('is money of nobody: in the drawer by method, in the income by kind, and the sale still balances', () => {
    const { book, saleId } = takings();
    const facts = saleFacts(book, saleId);
    expect(facts.takings.map(({ kind, method, amountCents }) => [kind, method, amountCents])).toEqual([
      ['raffle', 'cash', 4100],
      ['food', 'card', 1725],
      ['other', 'check', 3000],
    ]);
    expect(drawerMoves(book, saleId).map(({ method, amountCents }) => [method, amountCents])).toEqual([
      ['cash', 4100],
      ['card', 1725],
      ['check', 3000],
      ['check', 3000],
      ['check', -3000],
    ]);
    // 41.00 + 17.25 + 30.00, and 5.00 of the seller number.
    expect(revenueOf(facts, ZERO)).toMatchObject({ raffleCents: 4100, foodCents: 1725, otherTakingsCents: 3000 });
    expect(revenueOf(facts, ZERO).revenueCents).toBe(9325);
    expect(moneyProblems(facts)).toEqual([]);
    const money = closingLines(closingFacts(book, saleId)).find(({ name }) => name === 'money');
    expect(money).toMatchObject({ left: 8825, right: 8825, difference: 0 });
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true, difference: null });
  });

  it('is listed by day where the association is, the newest first, with what was voided and the sums by kind', () => {
    const hall = openHall();
    const { book, give } = hall;
    // Half past midnight in UTC is still the evening of the sale in Denver.
    hall.must('association.set', { name: 'Lantern Ridge Fur Harvesters', timeZone: 'America/Denver' });
    give('taking.record', { ...raffle, amount: '5.00' }, { station: 'till', at: '2026-02-27T20:00:00Z' });
    give('taking.record', raffle, { station: 'till', at: '2026-03-01T00:30:00Z' });
    give('taking.record', { ...raffle, kind: 'door' }, { station: 'till', at: '2026-03-01T00:40:00Z' });
    give('taking.void', { takingId: 3, reason: 'free for members' }, { station: 'till', at: '2026-03-01T00:50:00Z' });
    const { today, earlier, sums } = takingsView(book, 1, '2026-02-28');
    expect(today.map(({ takingId, amount, voided }) => [takingId, amount, voided])).toEqual([
      [3, '41.00', 'free for members'],
      [2, '41.00', null],
    ]);
    expect(earlier.map(({ takingId }) => takingId)).toEqual([1]);
    expect(sums).toEqual({ byKind: [{ words: 'Raffle', amount: '46.00' }], totalCents: 4600 });
  });

  it('stands by kind on the closing report and on the balance, and in a closed sale nothing is taken', () => {
    const hall = takings();
    const { book, saleId, refuses } = hall;
    closeSale(hall, saleId);
    const report = closingsOf(book, saleId).at(-1)?.report;
    const kept = report?.tables.find(({ title }) => title === 'What the association keeps');
    const rows = kept?.rows.map((row) => row.map(({ words }) => words)) ?? [];
    expect(rows).toEqual(
      expect.arrayContaining([
        ['Raffle', '41.00'],
        ['Food', '17.25'],
        ['Other takings', '30.00'],
        ['Kept in all', '93.25'],
      ]),
    );
    expect(rows.map(([words]) => words)).not.toContain('Door');
    const sale = saleById(book, saleId);
    expect(sale && balanceView(book, sale).takings.totalCents).toBe(8825);
    refuses('taking.record', raffle, { code: 'wrong_stage', field: 'saleId' });
    refuses('taking.void', { takingId: 1, reason: 'late' }, { code: 'wrong_stage', field: 'takingId' });
  });

  const { refusesUntyped } = openHall();
  it.each([
    [{ kind: 'dues' }, 'malformed', 'kind'],
    [{ kind: 'other', note: ' ' }, 'missing', 'note'],
    [{ amount: '0' }, 'malformed', 'amount'],
    [{ amount: '-5' }, 'malformed', 'amount'],
    [{ method: 'barter' }, 'malformed', 'method'],
    [{ saleId: 9 }, 'unknown', 'saleId'],
  ] as const)('refuses %j', (over, code, field) => {
    refusesUntyped('taking.record', { ...raffle, ...over }, { code, field });
  });

  it('is given at the till and the office only', () => {
    const { give } = openHall();
    expect(give('taking.record', raffle, { station: 'payout' })).toMatchObject({ ok: false, code: 'not_allowed' });
  });
});

describe('taking.void', () => {
  const hall = takings();
  it.each([
    [{ takingId: 99 }, 'unknown', 'takingId'],
    [{ takingId: 4 }, 'already', 'takingId'],
    [{ takingId: 5 }, 'not_allowed', 'takingId'],
    [{ reason: ' ' }, 'malformed', 'reason'],
  ] as const)('refuses %j', (over, code, field) => {
    hall.refuses('taking.void', { takingId: 1, reason: 'slip', ...over }, { code, field });
  });
});

describe('any takings', () => {
  const kind = fc.constantFrom(...TAKING_KINDS);
  const method = fc.constantFrom('cash', 'check', 'card', 'other');
  const one = fc.record({ kind, method, cents: fc.integer({ min: 1, max: 99_999 }), voided: fc.boolean() });

  it('lie in the drawer to the cent, are the income of their kinds, and leave the sale at zero', () => {
    fc.assert(
      fc.property(fc.array(one, { maxLength: 8 }), (all) => {
        const { book } = openHall();
        const { must } = hallOf(book, 1);
        for (const { kind, method, cents, voided } of all) {
          const amount = (cents / 100).toFixed(2);
          const { takingId } = must('taking.record', { saleId: 1, kind, method, amount, note: 'a law' });
          if (voided) must('taking.void', { takingId, reason: 'slip' });
        }
        const stand = all.filter(({ voided }) => !voided);
        const total = stand.reduce((sum, { cents }) => sum + cents, 0);
        const facts = saleFacts(book, 1);
        expect(sumOf(drawerMoves(book, 1), 'amountCents')).toBe(total);
        expect(sumCents(TAKING_KINDS.map((kind) => takenOf(facts.takings, kind)))).toBe(total);
        expect(moneyProblems(facts)).toEqual([]);
        const money = closingLines(closingFacts(book, 1)).find(({ name }) => name === 'money');
        expect(money?.difference).toBe(0);
        book.close();
      }),
      { numRuns: 25 },
    );
  });
});
