import { describe, expect, it } from 'vitest';
import type { Book } from '#db/book/open.ts';
import { closingsOf } from '#db/report/closing.ts';
import type { Stage } from '#lib/sale/facts.ts';
import { CLOSE_QUESTIONS, STAGES } from '#lib/sale/stage.ts';
import { GOODS, type Hall, openHall, rowsOf, SALE } from '#tests/support/hall.ts';

/** A sale of its own that was brought to a stage. */
function saleAt(hall: Hall, stage: Stage): number {
  const sale = { ...SALE, name: `A sale that is ${stage}` };
  const saleId = hall.must('sale.plan', { sale, goods: GOODS }).saleId;
  for (const next of STAGES.slice(1, STAGES.indexOf(stage) + 1))
    hall.must('sale.stage', { saleId, stage: next, reason: '' });
  return saleId;
}

const forward: readonly (readonly [Stage, Stage])[] = [
  ['planned', 'intake'],
  ['intake', 'selling'],
  ['selling', 'settling'],
  ['settling', 'closed'],
];
const back: readonly (readonly [Stage, Stage])[] = [
  ['selling', 'intake'],
  ['settling', 'selling'],
  ['closed', 'settling'],
];

describe('sale.stage', () => {
  it.each(forward)('goes on from %s to %s', (from, stage) => {
    const hall = openHall();
    hall.must('sale.stage', { saleId: saleAt(hall, from), stage, reason: '' });
    expect(rowsOf(hall.book).sale?.at(-1)).toMatchObject({ stage });
  });

  it.each(back)('goes back from %s to %s with a reason only', (from, stage) => {
    const hall = openHall();
    const saleId = saleAt(hall, from);
    hall.refuses('sale.stage', { saleId, stage, reason: ' ' }, { code: 'missing', field: 'reason' });
    hall.must('sale.stage', { saleId, stage, reason: 'a late lot' });
  });

  const allowed = new Set([...forward, ...back].map(([from, to]) => `${from} ${to}`));
  const others = STAGES.flatMap((from) => STAGES.map((to) => [from, to] as const)).filter(
    ([from, to]) => !allowed.has(`${from} ${to}`),
  );
  it.each(others)('refuses from %s to %s', (from, stage) => {
    const hall = openHall();
    const code = from === stage ? 'already' : 'wrong_stage';
    hall.refuses('sale.stage', { saleId: saleAt(hall, from), stage, reason: 'so' }, { code, field: 'stage' });
  });

  it('ends the bidding with lots left only where their number is typed, and without one once none is left', () => {
    const { saleId, must, refuses, refusesUntyped } = openHall();
    const end = { saleId, stage: 'settling', reason: '' } as const;
    for (const count of ['3', '4', '5']) must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count });
    const told = refuses('sale.stage', end, { code: 'needs_answer', field: 'left' });
    expect(told).toBe('3 lots have not been called. Type 3 to end the bidding anyway, or go on selling.');
    refuses('sale.stage', { ...end, left: 2 }, { code: 'conflict', field: 'left' });
    refusesUntyped('sale.stage', { ...end, left: 'three' }, { code: 'malformed', field: 'left' });
    must('sale.stage', { ...end, left: 3 });
    must('sale.stage', { saleId, stage: 'selling', reason: 'a buyer came' });
    // A lot that was opened again is to be called once more.
    const { lotId, outcomeId } = must('outcome.record', { saleId, lotNo: '1', kind: 'passed' });
    must('outcome.reopen', { lotId, replacesId: outcomeId, reason: 'a bid came in' });
    refuses('sale.stage', { ...end, left: 2 }, { code: 'conflict', field: 'left' });
    for (const lotNo of ['1', '2', '3']) must('outcome.record', { saleId, lotNo, kind: 'passed' });
    must('sale.stage', end);
  });

  it('refuses a sale that is not there, and a stage that is none', () => {
    const { refuses, refusesUntyped } = openHall();
    refuses('sale.stage', { saleId: 9, stage: 'closed', reason: '' }, { code: 'unknown', field: 'saleId' });
    refusesUntyped('sale.stage', { saleId: 1, stage: 'over', reason: '' }, { code: 'malformed', field: 'stage' });
  });
});

/** Lots 1 and 3 to buyer 10 and lot 2 to buyer 11, each for 100.00: all paid, but nothing billed or handed over. */
function paidHall(paid: { readonly 10: string; readonly 11: string } = { 10: '223.65', 11: '111.83' }): Hall {
  const hall = openHall();
  const { saleId, must } = hall;
  for (const [lotNo, buyerNo] of [
    ['1', 10],
    ['2', 11],
    ['3', 10],
  ] as const) {
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    must('outcome.record', { saleId, lotNo, kind: 'sold', price: '10.00', buyerNo });
  }
  must('sale.stage', { saleId, stage: 'settling', reason: '' });
  for (const buyerNo of [10, 11] as const) {
    const answered = ['more_than_owed'] as const;
    must('payment.record', { saleId, direction: 'in', buyerNo, method: 'cash', amount: paid[buyerNo], answered });
  }
  must('settlement.issue', { saleId, sellerNo: null, seen: 1 }, 'payout');
  must('check.write', { saleId, sellerNo: null, firstNumber: 1, seen: 1 }, 'payout');
  return hall;
}

/** What the first closing report of a sale says was left unfinished. */
const leftBehind = (book: Book, saleId: number) => closingsOf(book, saleId)[0]?.report?.closing[0]?.sentences;

describe('closing a sale whose balance is at zero', () => {
  const close = { saleId: 1, stage: 'closed', reason: '' } as const;
  const sure = { ...close, answered: [...CLOSE_QUESTIONS] };
  const bill = ({ must }: Hall) => [10, 11].map((buyerNo) => must('invoice.issue', { saleId: 1, buyerNo }));

  it('is refused while buyers have no invoice, whatever was answered', () => {
    const hall = paidHall();
    const told = hall.refuses('sale.stage', sure, { code: 'conflict', field: 'stage' });
    expect(told).toBe(
      'The sale cannot be closed yet. Buyers 10 and 11 have bought and have no invoice. Issue what is missing at the Till. See the balance under Payout.',
    );
    hall.must('invoice.issue', { saleId: 1, buyerNo: 10 });
    expect(hall.refuses('sale.stage', sure, { code: 'conflict' })).toContain('Buyer 11 has bought and has no invoice.');
    hall.must('invoice.issue', { saleId: 1, buyerNo: 11 });
    hall.must('sale.stage', sure);
  });

  it('is refused while an invoice and a sheet are no longer right, also where their sums are', () => {
    const hall = paidHall();
    bill(hall);
    const change = { kind: 'sold', buyerNo: 10, reason: 'the two were mixed up' } as const;
    hall.must('outcome.correct', { lotId: 1, replacesId: 1, price: '9.00', ...change });
    hall.must('outcome.correct', { lotId: 3, replacesId: 3, price: '11.00', ...change });
    const told = hall.refuses('sale.stage', sure, { code: 'conflict', field: 'stage' });
    expect(told).toBe(
      'The sale cannot be closed yet. Buyer 10 has an invoice that is no longer right. Issue what corrects it at the Till. Seller 1 has a sheet that is no longer right. Issue what corrects it under Payout. See the balance under Payout.',
    );
    hall.must('invoice.issue', { saleId: 1, buyerNo: 10 });
    hall.must('settlement.correct', { saleId: 1, sellerNo: 1, reason: 'mixed up' });
    hall.must('sale.stage', sure);
  });

  it('is refused where one buyer has paid what another owes', () => {
    const hall = paidHall({ 10: '233.65', 11: '101.83' });
    bill(hall);
    expect(hall.refuses('sale.stage', sure, { code: 'conflict', field: 'stage' })).toContain(
      'The buyers have paid: at zero, but not for each (buyer 10 paid 10.00 too much; buyer 11 still owes 10.00).',
    );
  });

  it('asks about lots that were not handed over, and its report says which were left', () => {
    const hall = paidHall();
    const { must, refuses, refusesUntyped, book } = hall;
    bill(hall);
    const asked = { code: 'needs_answer', field: 'lots_not_handed' } as const;
    expect(refuses('sale.stage', close, asked)).toBe(
      'Buyers 10 and 11 have not picked up lots 1, 2 and 3. Lots can also be handed over after the closing. Close the sale?',
    );
    must('handover.record', { saleId: 1, buyerNo: 11, lots: ['2'], pieces: '10', takenBy: 'Cal Dunn' });
    expect(refuses('sale.stage', close, asked)).toContain('Buyer 10 has not picked up lots 1 and 3. ');
    refuses('sale.stage', { ...close, answered: ['sellers_without_sheet'] }, asked);
    refusesUntyped('sale.stage', { ...close, answered: ['all_fine'] }, { code: 'malformed' });
    must('sale.stage', { ...close, answered: ['lots_not_handed'] });
    expect(leftBehind(book, 1)).toEqual(['buyer 10 has not picked up lots 1 and 3']);
  });

  it('asks nothing where everything was fetched, and its report says that nothing was left', () => {
    const hall = paidHall();
    bill(hall);
    const fetched = { saleId: 1, pieces: '10', takenBy: 'a driver' } as const;
    hall.must('handover.record', { ...fetched, buyerNo: 11, lots: ['2'] });
    hall.must('handover.record', { ...fetched, buyerNo: 10, lots: ['1', '3'], pieces: '20' });
    hall.must('sale.stage', close);
    expect(leftBehind(hall.book, 1)).toEqual(['Nothing.']);
  });

  it('asks about a lot that was fetched by one buyer and then put down to another', () => {
    const hall = paidHall();
    const { must } = hall;
    bill(hall);
    must('handover.record', { saleId: 1, buyerNo: 11, lots: ['2'], pieces: '10', takenBy: 'Cal Dunn' });
    must('handover.record', { saleId: 1, buyerNo: 10, lots: ['1', '3'], pieces: '20', takenBy: 'Bea Cole' });
    must('outcome.correct', { lotId: 2, replacesId: 2, kind: 'sold', price: '10.00', buyerNo: 10, reason: 'misheard' });
    for (const buyerNo of [10, 11]) must('invoice.issue', { saleId: 1, buyerNo });
    const cash = { saleId: 1, method: 'cash' } as const;
    must('payment.record', { ...cash, direction: 'out', buyerNo: 11, amount: '111.83' });
    // Three lots together are taxed once: 335.475, half up, less the 223.65 of two.
    must('payment.record', { ...cash, direction: 'in', buyerNo: 10, amount: '111.83' });
    const told = hall.refuses('sale.stage', close, { code: 'needs_answer', field: 'lots_not_handed' });
    expect(told).toContain('Buyer 10 has not picked up lot 2. ');
  });

  it('asks about a seller whose lots were called and who has no sheet', () => {
    const hall = openHall();
    const { must, refuses } = hall;
    const noFees = { seller_number_fee: '0.00', lot_fee: '0.00', no_sale: { flat: '0.00', pct_of_minimum: '0' } };
    const free = { ...SALE, name: 'A sale without fees', terms: { ...SALE.terms, ...noFees } };
    const second = must('sale.plan', { sale: free, goods: GOODS }).saleId;
    must('sale.stage', { saleId: second, stage: 'intake', reason: '' });
    must('seller.register', { saleId: second, sellerNo: 4, partners: [{ personId: 1 }] });
    must('lot.add', { saleId: second, sellerNo: 4, goods: 'raccoon', count: '3' });
    must('sale.stage', { saleId: second, stage: 'selling', reason: '' });
    must('outcome.record', { saleId: second, lotNo: '1', kind: 'passed' });
    must('sale.stage', { saleId: second, stage: 'settling', reason: '' });
    const end = { ...close, saleId: second };
    const told = refuses('sale.stage', end, { code: 'needs_answer', field: 'sellers_without_sheet' });
    expect(told).toBe('Seller 4 had lots called and has no sheet. They owe nothing and get nothing. Close the sale?');
    must('sale.stage', { ...end, answered: ['sellers_without_sheet'] });
    expect(leftBehind(hall.book, second)).toEqual(['seller 4 had lots called and has no sheet']);
  });
});
