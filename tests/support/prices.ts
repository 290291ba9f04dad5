import fc from 'fast-check';
import { type Book, openBook } from '#db/book/open.ts';
import { cents } from '#lib/money/money.ts';
import type { OfferedLot } from '#lib/price/range.ts';
import { STARTING_GOODS } from '#lib/sale/goods.ts';
import { hallOf, SALE } from './hall.ts';

/** Called lots for tests of the price ranges. */

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

/**
 * A book of many past seasons for measuring how fast prices are read. Its rows are written past the door, because only
 * the reading is measured: a book of 30 seasons × 5,000 lots is made in seconds.
 */

interface Years {
  readonly seasons: number;
  readonly lots: number;
}

const LAST = 2025;
const SELLERS = 60;
const BUYERS = 12;
const SIZES = ['XL', 'L', 'M', 'S'];
const GRADES = ['I', 'II', 'III'];
const SECTIONS = ['east', 'west'];
const FORMS = ['put_up', 'put_up', 'put_up', 'green'];

/** The season that ends in this year, such as 2024-25. */
export function seasonHeldIn(year: number): string {
  return `${year - 1}-${String(year % 100).padStart(2, '0')}`;
}

/** Makes the file where there is none; the newest season is 2024-25. */
export function fillYears(file: string, { seasons, lots }: Years): void {
  const book = openBook(file, { create: true });
  const { must } = hallOf(book, 0);
  must('association.set', { name: 'Lantern Ridge Fur Harvesters' });
  for (let one = 1; one <= SELLERS + BUYERS; one += 1) must('person.enrol', { name: `Person ${one}` });
  for (let year = 0; year < seasons; year += 1) {
    const held = LAST - year;
    const season = seasonHeldIn(held);
    const sale = { ...SALE, name: `Sale of ${season}`, season, held_on: `${held}-02-22` };
    const goods = STARTING_GOODS.map((kind) => ({ ...kind, exportTag: false }));
    fillSale(book, must('sale.plan', { sale, goods }).saleId, lots);
  }
  book.sqlite.exec('ANALYZE');
  book.close();
}

function fillSale(book: Book, saleId: number, lots: number): void {
  const insert = (sql: string) => book.sqlite.prepare(`INSERT INTO ${sql} RETURNING id`).pluck();
  const seller = insert('seller (sale_id, seller_no, line) VALUES (?, ?, 1)');
  const partner = insert('partner (seller_id, position, person_id, parts, line) VALUES (?, 0, ?, 1, 1)');
  const buyer = insert('buyer (sale_id, buyer_no, person_id, line) VALUES (?, ?, ?, 1)');
  const lot = insert(
    'lot (sale_id, lot_number, seller_id, goods_id, "by", count, weight_thousandths, size, grade, section, form, line) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, 1)',
  );
  const outcome = insert(
    `outcome (lot_id, kind, price_cents, buyer_id, at, line) VALUES (?, ?, ?, ?, '2000-02-22T10:00:00Z', 1)`,
  );
  const kinds = book.sqlite.prepare('SELECT id, "by" FROM goods WHERE sale_id = ? ORDER BY id').all(saleId) as {
    id: number;
    by: string;
  }[];
  book.sqlite.transaction(() => {
    const sellers = Array.from({ length: SELLERS }, (_, at) => {
      const sellerId = seller.get(saleId, at + 1);
      partner.get(sellerId, at + 1);
      return sellerId;
    });
    const buyers = Array.from({ length: BUYERS }, (_, at) => buyer.get(saleId, at + 1, SELLERS + at + 1));
    const draw = drawer(saleId);
    for (let at = 0; at < lots; at += 1) {
      const kind = draw(kinds);
      const words = [draw(SIZES), draw(GRADES), draw(SECTIONS), draw(FORMS)];
      const quantity = kind.by === 'piece' ? [1 + draw.below(40), null] : [null, 500 + draw.below(9000)];
      const lotId = lot.get(saleId, at + 1, draw(sellers), kind.id, kind.by, ...quantity, ...words);
      if (draw.below(20) === 0) outcome.get(lotId, 'passed', null, null);
      else outcome.get(lotId, 'sold', 125 + draw.below(97) * 25, draw(buyers));
    }
    book.sqlite.prepare(`UPDATE sale SET stage = 'closed' WHERE id = ?`).run(saleId);
  })();
}

/** Draws evenly, and the same for the same sale: a minimal linear congruential generator. */
function drawer(seed: number) {
  let state = seed;
  const below = (limit: number) => {
    state = (state * 48_271) % 2_147_483_647;
    return state % limit;
  };
  return Object.assign(<T>(values: readonly T[]): T => values[below(values.length)] as T, { below });
}
