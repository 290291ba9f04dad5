/** Called lots for tests of the price ranges. */
import fc from 'fast-check';
import { cents } from '#lib/money.ts';
import type { OfferedLot } from '#lib/price-range.ts';

interface Wanted extends Partial<Omit<OfferedLot, 'priced'>> {
  /** Cents a piece. */
  readonly price?: number;
  readonly pieces?: number;
}

export function offered({ price = 1000, pieces = 1, ...over }: Wanted): OfferedLot {
  const lot = { ...PLAIN, ...over };
  const { goods, section, measure } = lot;
  const figures = { times: pieces, quantityThousandths: pieces * 1000, amountCents: cents(price * pieces) };
  return { ...lot, priced: { season: '2025-26', goods, section, measure, priceCents: cents(price), ...figures } };
}

export function unsoldLot(over: Partial<OfferedLot>): OfferedLot {
  return { ...PLAIN, ...over, buyer: null, priced: null };
}

const PLAIN = {
  ...({ goods: 'raccoon', measure: 'piece', section: '', size: '', grade: '', form: 'put_up' } as const),
  ...{ seller: 1, buyer: 10 },
};

export const anyOffered: fc.Arbitrary<OfferedLot> = fc
  .record({
    section: fc.constantFrom('', 'east', 'west'),
    size: fc.constantFrom('S', 'M', 'L'),
    grade: fc.constantFrom('I', 'II'),
    form: fc.constantFrom('put_up', 'green'),
    seller: fc.integer({ min: 1, max: 6 }),
    buyer: fc.integer({ min: 10, max: 15 }),
    price: fc.integer({ min: 1, max: 3000 }),
    pieces: fc.integer({ min: 1, max: 6 }),
    sold: fc.constantFrom(true, true, true, false),
  })
  .map(({ sold, price, pieces, ...lot }) => (sold ? offered({ ...lot, price, pieces }) : unsoldLot(lot)));
