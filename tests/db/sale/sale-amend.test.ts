import { describe, expect, it } from 'vitest';
import { bobcatTag, GOODS, type Hall, openHall, rowsOf, SALE } from '#tests/support/hall.ts';

const { terms } = SALE;
const cheaper = {
  ...SALE,
  venue: 'Fairground',
  terms: { ...terms, commission: { member: '5', guest: '9.5' } },
} as const;

const saleRow = ({ book, saleId }: Hall) =>
  (rowsOf(book).sale as { id: number }[] | undefined)?.find(({ id }) => id === saleId);

describe('sale.amend', () => {
  it('changes the terms under which everything is then settled', () => {
    const hall = openHall({ stage: 'selling' });
    const { book, must, saleId } = hall;
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
    const without = { ...cheaper, terms: { ...cheaper.terms, commission_overrides: {} } };
    must('sale.amend', { saleId, sale: without, reason: 'The board lowered the commission.' });
    expect(saleRow(hall)).toMatchObject({ venue: 'Fairground', commission_member_pct: '5', stage: 'selling' });
    expect(rowsOf(book).commission_override).toEqual([]);
    // 100.00 less 5 % is 95.00; lot fee 0.25 and seller number 5.00.
    must('settlement.issue', { saleId, sellerNo: 1 });
    expect(JSON.stringify(rowsOf(book).settlement?.[0])).toContain('89.75');
  });

  it('asks for no reason while the sale is only planned', () => {
    const hall = openHall();
    const { saleId } = hall.must('sale.plan', { sale: { ...SALE, name: 'Next' }, goods: GOODS });
    const sale = { ...cheaper, name: 'Next', currency: 'CAD', region: 'CA-YT', bidding: 'sealed' } as const;
    const mink = { ...sale.terms, commission_overrides: { mink: { member: '4', guest: '8' } } } as const;
    const stray = { saleId, sale: { ...sale, terms: mink }, reason: '' } as const;
    hall.refuses('sale.amend', stray, { code: 'unknown', field: 'sale.terms' });
    hall.must('sale.amend', { saleId, sale, reason: '' });
    expect(rowsOf(hall.book).sale?.at(-1)).toMatchObject({ name: 'Next', currency: 'CAD', bidding: 'sealed' });
  });

  it.each([
    ['without a reason once goods come in', cheaper, '', 'missing', 'reason'],
    ['a day that is none', { ...cheaper, held_on: '2026-02-30' }, 'why', 'malformed', 'sale.held_on'],
    ['another State once lots are in', { ...cheaper, region: 'US-MT' }, 'why', 'already', 'sale.region'],
    ['another currency once lots are in', { ...cheaper, currency: 'CAD' }, 'why', 'already', 'sale.currency'],
    [
      'another way of selling once a lot was called',
      { ...cheaper, bidding: 'sealed' },
      'why',
      'already',
      'sale.bidding',
    ],
  ] as const)('refuses %s', (...[, sale, reason, code, field]) => {
    const { must, refuses, saleId } = openHall({ stage: 'selling' });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'passed' });
    refuses('sale.amend', { saleId, sale, reason }, { code, field });
  });

  it('refuses once a sheet or an invoice is out, once the sale is closed, and a sale that is none', () => {
    const sheet = openHall({ stage: 'settling' });
    sheet.must('settlement.issue', { saleId: 1, sellerNo: null, seen: 1 });
    sheet.refuses('sale.amend', { saleId: 1, sale: cheaper, reason: 'why' }, { code: 'already', field: 'saleId' });
    const invoice = openHall();
    invoice.must('lot.add', { saleId: 1, sellerNo: 1, goods: 'raccoon', count: '10' });
    invoice.must('outcome.record', { saleId: 1, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
    invoice.must('invoice.issue', { saleId: 1, buyerNo: 10 });
    invoice.refuses('sale.amend', { saleId: 1, sale: cheaper, reason: 'why' }, { code: 'already', field: 'saleId' });
    const closed = openHall({ stage: 'closed' });
    closed.refuses('sale.amend', { saleId: 1, sale: cheaper, reason: 'why' }, { code: 'wrong_stage', field: 'saleId' });
    closed.refuses('sale.amend', { saleId: 7, sale: cheaper, reason: 'why' }, { code: 'unknown', field: 'saleId' });
  });

  it('leaves no name and day twice', () => {
    const { must, refuses } = openHall();
    const { saleId } = must('sale.plan', { sale: { ...SALE, name: 'Next' }, goods: GOODS });
    refuses('sale.amend', { saleId, sale: SALE, reason: '' }, { code: 'taken', field: 'sale.name' });
  });
});

describe('the goods of a sale', () => {
  const RACCOON = { goods: 'raccoon', name: 'Raccoon', by: 'piece' } as const;
  const BOBCAT = { goods: 'bobcat', name: 'Bobcat', by: 'piece', exportTag: true, tagSpeciesCode: 'BOB' } as const;

  it('are added and taken in from then on', () => {
    const { must, refuses, saleId } = openHall();
    const mink = {
      saleId,
      goods: 'mink',
      name: 'Mink',
      by: 'piece',
      sizes: ['S', 'L'],
      reason: 'A member asked.',
    } as const;
    must('goods.add', mink);
    must('lot.add', { saleId, sellerNo: 1, goods: 'mink', count: '4', size: 'L' });
    refuses('goods.add', mink, { code: 'taken', field: 'goods' });
    refuses('goods.add', { ...mink, goods: 'otter', reason: ' ' }, { code: 'missing', field: 'reason' });
    refuses('goods.add', { ...mink, goods: 'otter', seasonLimit: 0 }, { code: 'malformed', field: 'seasonLimit' });
  });

  it('are added and changed after the first invoice and the first sheet, until the sale is closed', () => {
    const { must, refuses, saleId } = openHall();
    const mink = { saleId, goods: 'mink', name: 'Mink', by: 'piece', reason: 'A member brought some.' } as const;
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
    must('invoice.issue', { saleId, buyerNo: 10 });
    must('settlement.issue', { saleId, sellerNo: 1 });
    must('goods.add', mink);
    must('lot.add', { saleId, sellerNo: 1, goods: 'mink', count: '4' });
    must('goods.amend', { ...mink, name: 'Ranch mink', sizes: ['S', 'L'], grades: ['I'] });
    refuses('goods.amend', { ...mink, by: 'lot' }, { code: 'already', field: 'by' });
    const closed = openHall({ stage: 'closed' });
    closed.refuses('goods.add', { ...mink, saleId: 1 }, { code: 'wrong_stage', field: 'saleId' });
    closed.refuses('goods.amend', { ...RACCOON, saleId: 1, reason: 'x' }, { code: 'wrong_stage', field: 'saleId' });
  });

  it('keep the name that issued papers print: with their own commission, or with lots that were called', () => {
    const { must, refuses, saleId } = openHall();
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '10' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 });
    const why = { saleId, reason: 'misspelled' } as const;
    must('goods.amend', { ...why, ...RACCOON, name: 'Racoon' });
    must('goods.amend', { ...why, ...BOBCAT, name: 'Lynx' });
    must('invoice.issue', { saleId, buyerNo: 10 });
    const stays = { code: 'already', field: 'name' } as const;
    expect(refuses('goods.amend', { ...why, ...RACCOON }, stays)).toContain('Racoon is printed on it');
    // The terms on every sheet name the goods that have a commission of their own.
    refuses('goods.amend', { ...why, ...BOBCAT }, stays);
    must('goods.amend', { ...why, ...BOBCAT, name: 'Lynx', seasonLimit: 2 });
  });

  it('can be put under the tag rule while none was called: the lots without tags are then on hold', () => {
    const { must, give, refuses, saleId } = openHall();
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '2' });
    const tagged = {
      saleId,
      ...RACCOON,
      exportTag: true,
      tagSpeciesCode: 'RAC',
      reason: 'The agency asks for tags.',
    } as const;
    must('goods.amend', tagged);
    const sold = { saleId, lotNo: '1', kind: 'sold', price: '10.00', buyerNo: 10 } as const;
    expect(give('outcome.record', sold, { station: 'block' })).toMatchObject({ ok: false, code: 'on_hold' });
    must('goods.amend', { ...tagged, exportTag: false });
    must('outcome.record', sold);
    refuses('goods.amend', tagged, { code: 'already', field: 'exportTag' });
  });

  it('keep what their lots rest on', () => {
    const { must, refuses, saleId } = openHall();
    must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags: [bobcatTag(1)] });
    const why = { saleId, reason: 'why' } as const;
    refuses('goods.amend', { ...BOBCAT, ...why, by: 'lot' }, { code: 'already', field: 'by' });
    refuses('goods.amend', { ...BOBCAT, ...why, exportTag: false }, { code: 'already', field: 'exportTag' });
    must('goods.amend', { ...BOBCAT, ...why, seasonLimit: 2, grades: ['I', 'II'], caution: 'Gloves.' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'passed' });
    refuses('goods.amend', { ...BOBCAT, ...why, tagSpeciesCode: 'X' }, { code: 'already', field: 'tagSpeciesCode' });
    refuses('goods.amend', { ...BOBCAT, ...why, goods: 'lynx' }, { code: 'unknown', field: 'goods' });
  });

  it('cannot be asked for tags by the piece where a lot was weighed and not counted', () => {
    const { must, refuses, saleId } = openHall();
    must('lot.add', { saleId, sellerNo: 1, goods: 'castor', weight: '7.5' });
    const castor = { saleId, goods: 'castor', name: 'Castor', by: 'oz', exportTag: true, reason: 'why' } as const;
    refuses('goods.amend', castor, { code: 'already', field: 'exportTag' });
  });
});
