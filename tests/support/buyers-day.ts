/** A day at the till with what its papers find hard: partners, weights, tags, names with marks, a correction. */
import { buyerFile } from '#db/queries/buyer-files.ts';
import type { BuyerFile } from '#lib/buyer/input.ts';
import { QUESTIONS } from '#lib/decide-outcome.ts';
import { bobcatTag, type Hall, openHall } from '#tests/support/hall.ts';

/**
 * Buyer 30, Łucja Żółć, has 12 raccoons at 7.25, 7.35 oz of castor at 2.05, two bobcats at 125.00 and ten raccoons for
 * 101.30 the lot. Premium 5 %, tax 6.5 %.
 */
export function buyersDay(): Hall & { readonly file: () => BuyerFile } {
  const hall = openHall();
  const { book, saleId, must } = hall;
  must('association.set', { name: 'Lantern Ridge Fur Harvesters', city: 'Harrow', region: 'US-WY' });
  const licence = { licenceNo: 'T-77', licenceRegion: 'US-MT', licenceExpires: '2026-12-31' };
  const address = { street: '3 Cold Fork Road', city: 'Íñigo Creek', region: 'MT', postcode: '59001' };
  const zoe = must('person.enrol', { name: 'Zoë Ærøe', ...address, ...licence }).personId;
  const lucja = must('person.enrol', { name: 'Łucja Żółć', street: '9 Mill Lane', city: 'Ğülşen' }).personId;
  const partners = [
    { personId: 1, parts: 1 },
    { personId: zoe, parts: 2 },
  ];
  must('seller.register', { saleId, sellerNo: 2, partners });
  const shown = { licenceNo: 'FB-31', licenceRegion: 'US-WY', licenceExpires: '2026-06-30' };
  must('buyer.register', { saleId, buyerNo: 30, personId: lucja, cleared: true, ...shown });
  must('lot.add', { saleId, sellerNo: 2, goods: 'raccoon', count: '12', size: 'XL', grade: 'I', section: 'Cold Fork' });
  must('lot.add', { saleId, sellerNo: 1, goods: 'castor', weight: '7.35', section: 'Ridge' });
  must('lot.add', { saleId, sellerNo: 2, goods: 'bobcat', count: '2', tags: [bobcatTag(1), bobcatTag(2)] });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', by: 'lot', count: '10' });
  for (const [lotNo, price] of Object.entries({ 1: '7.25', 2: '2.05', 3: '125.00', 4: '101.30' })) {
    must('outcome.record', { saleId, lotNo, kind: 'sold', price, buyerNo: 30, answered: [...QUESTIONS] });
  }
  const file = () => {
    const found = buyerFile(book, saleId, 30);
    if (!found) throw new Error('buyer 30 is not there');
    return found;
  };
  return { ...hall, file };
}
