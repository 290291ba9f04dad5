import { describe, expect, it } from 'vitest';
import { type SaleRow, saleById } from '#db/book/find.ts';
import { drawerMoves, drawerView } from '#db/drawer/queries.ts';
import { payoutSeller } from '#db/settlement/payout.ts';
import { exportFiles, withoutJournal } from '#tests/support/exchange.ts';
import { openHall, rowsOf } from '#tests/support/hall.ts';

const charge = { saleId: 1, sellerNo: 1, kind: 'advance', amount: '25.00', how: 'deducted' } as const;
const waived = { chargeId: 1, reason: 'lent by mistake' } as const;

describe('charge.waive', () => {
  function hall() {
    const at = openHall();
    at.must('charge.add', { ...charge, note: 'lent' });
    return at;
  }

  it('takes the charge back by a further row with the reason, as the treasurer', () => {
    const { book, must } = hall();
    expect(must('charge.waive', waived, 'payout')).toEqual({ chargeId: 2, voidsId: 1 });
    const same = { seller_id: 1, kind: 'advance', amount_cents: 2500, how: 'deducted' };
    expect(rowsOf(book).charge).toMatchObject([
      { ...same, id: 1, note: 'lent', voids_id: null },
      { ...same, id: 2, note: 'lent by mistake', voids_id: 1 },
    ]);
  });

  it('leaves nothing of it on the sheet and in the folder', () => {
    const at = hall();
    at.must('charge.waive', waived);
    at.must('settlement.issue', { saleId: 1, sellerNo: 1 });
    expect(JSON.stringify(rowsOf(at.book).settlement)).not.toContain('lent');
    expect(withoutJournal(exportFiles(at.book, 1))).toEqual(withoutJournal(exportFiles(without().book, 1)));
  });

  /** The same hall in which nobody was ever charged anything. */
  function without() {
    const at = openHall();
    at.must('settlement.issue', { saleId: 1, sellerNo: 1 });
    return at;
  }

  it.each([
    [{ chargeId: 9 }, 'unknown', 'chargeId'],
    [{ reason: '' }, 'malformed', 'reason'],
    [{ reason: ' no ' }, 'malformed', 'reason'],
    [{ reason: undefined }, 'malformed', 'reason'],
  ] as const)('refuses %j', (over, code, field) => {
    hall().refusesUntyped('charge.waive', { ...waived, ...over }, { code, field });
  });

  it('refuses a charge that was waived, and the row that waives it', () => {
    const { must, refuses } = hall();
    must('charge.waive', waived);
    refuses('charge.waive', waived, { code: 'already', field: 'chargeId' });
    refuses('charge.waive', { ...waived, chargeId: 2 }, { code: 'not_allowed', field: 'chargeId' });
  });

  it('leaves the sheet that was issued as it is, which then no longer fits and is corrected', () => {
    const { book, must } = hall();
    const sheet = () => payoutSeller(book, saleById(book, 1) as SaleRow, 1);
    must('settlement.issue', { saleId: 1, sellerNo: 1 });
    must('charge.waive', waived);
    // The number is 5.00, and the advance 25.00.
    expect(sheet()).toMatchObject({ changed: true, issued: { sheet: { totals: { netCents: -3000 } } } });
    must('settlement.correct', { saleId: 1, sellerNo: 1, reason: 'lent by mistake' });
    expect(sheet()).toMatchObject({ changed: false, issued: { sheet: { totals: { netCents: -500 } } } });
  });

  it('has what was paid in cash go out of the drawer when it is waived, also where it came in before', () => {
    const { book, must } = openHall();
    must('charge.add', { ...charge, how: 'cash' });
    must('drawer.record', { saleId: 1, kind: 'opened', pieces: [{ denomination: '50', pieces: '1' }] });
    must('charge.add', { ...charge, kind: 'adjustment', amount: '-1.56', how: 'cash', note: 'miscounted' });
    must('charge.waive', waived);
    must('charge.waive', { ...waived, chargeId: 2 });
    const [cash] = drawerView(book, { id: 1, currency: 'USD' }).now;
    expect(cash).toMatchObject({ float: '50.00', in: '1.56', out: '-26.56', expected: '25.00' });
  });

  it('moves no money where it was deducted', () => {
    const { book, must } = hall();
    must('charge.waive', waived);
    expect(drawerMoves(book, 1)).toEqual([]);
  });

  it('refuses what bought a membership, whether the dues stand or were taken back', () => {
    const { must, refuses } = openHall();
    const said = { saleId: 1, personId: 1, sellerNo: 1, how: 'deducted', amount: '25.00' } as const;
    const { duesId } = must('dues.take', said);
    refuses('charge.waive', waived, { code: 'not_allowed', field: 'chargeId' });
    must('dues.void', { duesId, reason: 'wrong person' });
    refuses('charge.waive', waived, { code: 'already', field: 'chargeId' });
  });

  it('refuses a closed sale', () => {
    const { must, refuses } = openHall({ stage: 'settling' });
    must('charge.add', { ...charge, kind: 'dues' });
    must('settlement.issue', { saleId: 1, sellerNo: 1 });
    must('payment.record', { saleId: 1, direction: 'in', sellerNo: 1, method: 'cash', amount: '30.00' });
    must('sale.stage', { saleId: 1, stage: 'closed', reason: '' });
    refuses('charge.waive', waived, { code: 'wrong_stage', field: 'chargeId' });
  });

  it('is given by the treasurer and the office, not at check-in', () => {
    const at = hall();
    const before = rowsOf(at.book);
    expect(at.give('charge.waive', waived, { station: 'intake' }).ok).toBe(false);
    expect(rowsOf(at.book)).toEqual(before);
  });
});
