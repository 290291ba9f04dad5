import { describe, expect, it } from 'vitest';
import { personFile } from '#db/person/queries.ts';
import { openHall } from '#tests/support/hall.ts';

describe("a person's file", () => {
  const { book, saleId, must } = openHall();
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });

  it('holds what they brought, bought and were, and the lines about them', () => {
    const ada = personFile(book, 1);
    expect(ada).toMatchObject({ person: [{ name: 'Ada Birch' }], lots: [{ count: 3 }], bought: [] });
    const bea = personFile(book, 2);
    expect(bea).toMatchObject({ person: [{ name: 'Bea Cole' }], bought: [{ price_cents: 725 }], lots: [] });
    expect(JSON.stringify(bea)).not.toContain('Ada Birch');
    expect(bea?.logLines).toEqual(expect.arrayContaining([expect.objectContaining({ command: 'buyer.register' })]));
  });

  it('is nothing for nobody', () => {
    expect(personFile(book, 99)).toBeNull();
  });
});
