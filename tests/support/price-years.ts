/**
 * A book of many past seasons for measuring how fast prices are read. Its rows are written past the door, because only
 * the reading is measured: a book of 30 seasons × 5,000 lots is made in seconds.
 */
import { type Book, openBook } from '#db/open.ts';
import { STARTING_GOODS } from '#lib/starting-goods.ts';
import { hallOf, SALE } from './hall.ts';

interface Years {
  readonly seasons: number;
  readonly lots: number;
}

const SELLERS = 60;
const BUYERS = 12;
const SIZES = ['XL', 'L', 'M', 'S'];
const GRADES = ['I', 'II', 'III'];
const SECTIONS = ['east', 'west'];

export function fillYears(file: string, { seasons, lots }: Years): void {
  const book = openBook(file, { create: true });
  const { must, id } = hallOf(book, 0);
  must('association.set', { name: 'Lantern Ridge Fur Harvesters' });
  for (let one = 1; one <= SELLERS + BUYERS; one += 1) must('person.enrol', { name: `Person ${one}` });
  for (let year = 0; year < seasons; year += 1) {
    const season = `${1996 + year}-${String((1997 + year) % 100).padStart(2, '0')}`;
    const sale = { ...SALE, name: `Sale of ${season}`, season, held_on: `${1997 + year}-02-22` };
    const goods = STARTING_GOODS.map((kind) => ({ ...kind, exportTag: false }));
    fillSale(book, id(must('sale.plan', { sale, goods }), 'saleId'), lots);
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
    for (let at = 0; at < lots; at += 1) {
      const kind = kinds[(at * 7) % kinds.length];
      const piece = kind?.by === 'piece';
      const words = [SIZES[at % 4], GRADES[at % 3], SECTIONS[at % 2], at % 9 === 0 ? 'green' : 'put_up'];
      const quantity = piece ? [1 + (at % 40), null] : [null, 500 + ((at * 37) % 9000)];
      const lotId = lot.get(saleId, at + 1, sellers[(at * 11) % SELLERS], kind?.id, kind?.by, ...quantity, ...words);
      const price = 125 + ((at * 7919) % 97) * 25;
      if (at % 20 === 0) outcome.get(lotId, 'passed', null, null);
      else outcome.get(lotId, 'sold', price, buyers[(at * 5) % BUYERS]);
    }
    book.sqlite.prepare(`UPDATE sale SET stage = 'closed' WHERE id = ?`).run(saleId);
  })();
}
