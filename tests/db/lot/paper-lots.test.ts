import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { openBook } from '#db/book/open.ts';
import { openLots } from '#db/lot/open-lots.ts';
import { paperGround, paperLots } from '#db/lot/papers.ts';
import { lotsOnHold } from '#db/lot/queries.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { compareLotNo } from '#lib/lot/number.ts';
import { fullBook } from '#tests/support/book-file.ts';
import { caseFolder, filesIn, importFiles, withBook } from '#tests/support/exchange.ts';
import { bobcatTag, openHall } from '#tests/support/hall.ts';

function saleOf(book: Parameters<typeof saleById>[0]) {
  const sale = saleById(book, 1);
  if (!sale) throw new Error('the book has a sale');
  return sale;
}

describe('the lots as the papers take them', () => {
  it('are those of the sale’s facts, lot by lot, with what stands for each', () => {
    withBook((book) => {
      importFiles(book, filesIn(caseFolder('sixty-lots')));
      const facts = saleFacts(book, 1);
      const names = new Map(facts.goods.map(({ goods, name }) => [goods, name]));
      const byNumber = [...paperLots(book, saleOf(book))].sort((a, b) => compareLotNo(a.lotNo, b.lotNo));
      const outcomes = new Map(facts.outcomes.map(({ lotNo, ...outcome }) => [lotNo, outcome]));
      const wanted = facts.lots.map(({ goods, ...lot }) => ({ ...lot, goodsName: names.get(goods) ?? goods }));
      expect(byNumber).toMatchObject(wanted);
      expect(byNumber).toHaveLength(wanted.length);
      for (const { lotNo, outcome } of byNumber) {
        const stands = outcomes.get(lotNo);
        if (stands) expect(outcome).toMatchObject(stands);
        else expect(outcome).toBeNull();
      }
    });
  });

  it('say a corrected outcome as corrected, and a reopened lot as open', () => {
    const book = openBook(fullBook());
    try {
      const lots = new Map(paperLots(book, saleOf(book)).map((lot) => [String(lot.lotNo), lot]));
      // 13 pieces at 7.75 make 100.75.
      expect(lots.get('1')?.outcome).toEqual({ kind: 'sold', priceCents: 775, amountCents: 10_075, buyerNo: 10 });
      expect(lots.get('4')?.outcome).toBeNull();
    } finally {
      book.close();
    }
  });

  it('come in the running order, as they come up at the Block', () => {
    const { book, saleId, must } = openHall();
    for (const goods of ['raccoon', 'castor', 'raccoon', 'raccoon']) {
      must('lot.add', { saleId, sellerNo: 1, goods, ...(goods === 'castor' ? { weight: '2' } : { count: '2' }) });
    }
    must('sale.order', { saleId, order: 'goods' });
    must('lot.skip', { saleId, lotNo: '3', wholeSeller: false }, 'block');
    const sale = saleOf(book);
    const order = paperLots(book, sale).map(({ lotNo }) => lotNo);
    expect(order).toEqual(openLots(book, sale).map(({ lotNo }) => lotNo));
    expect(order).toEqual(['2', '1', '4', '3']);
  });

  it('are held back by the same sentences as at the check-in table, until they are called', () => {
    const { book, saleId, must } = openHall();
    const added = must('lot.add', {
      saleId,
      sellerNo: 1,
      goods: 'bobcat',
      count: '3',
      tags: [bobcatTag(1), bobcatTag(2)],
    });
    must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '1', tags: [bobcatTag(3)] });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '1' });
    const held = lotsOnHold(book, saleId).map(({ lotNo, holds }) => ({ lotNo, holds }));
    const onPaper = paperLots(book, saleOf(book)).map(({ lotNo, holds }) => ({ lotNo, holds }));
    expect(held).toHaveLength(1);
    expect(onPaper.filter(({ holds }) => holds.length > 0)).toEqual(held);
    must('lot.withdraw', { lotId: added.lotId, reason: 'no tag' });
    expect(paperLots(book, saleOf(book)).flatMap(({ holds }) => holds)).toEqual([]);
  });
});

it('carry the left bids that still count, the highest first', () => {
  const { book, saleId, must } = openHall();
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '2' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '2' });
  const leave = (buyerNo: number, price: string, lotNo = '1') =>
    must('bid.leave', { saleId, lotNo, buyerNo, kind: 'left', price });
  leave(10, '6.00');
  leave(11, '7.50');
  must('bid.retract', { bidId: leave(10, '9.00', '2').bidId });
  const left = paperLots(book, saleOf(book)).map(({ leftBids }) => leftBids);
  expect(left).toEqual([
    [
      { buyerNo: 11, price: '7.50' },
      { buyerNo: 10, price: '6.00' },
    ],
    [],
  ]);
});

it('the ground has the sale, whose it is, and the head of the log', () => {
  const { book } = openHall();
  const ground = paperGround(book, saleOf(book), '2026-02-28');
  expect(ground).toMatchObject({ saleId: 1, issuedOn: '2026-02-28', sale: { name: 'Late Winter Sale' } });
  expect(ground.head.hash).toMatch(/^[0-9a-f]{64}$/);
});
