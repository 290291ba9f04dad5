/** How many pieces of some goods the licences behind a seller number have brought in a season. */
import { and, asc, eq, sql } from 'drizzle-orm';
import type { Book } from '../open.ts';
import { particulars, partner, seller } from '../schema/index.ts';
import { standingOutcome } from './outcome.ts';

const given = sql.placeholder;

/** The licences of a seller number's partners at its sale, each once; a person without one stands for themselves. */
export function licencesOfSeller(book: Book, sellerId: number): string[] {
  const find = book.prepared('licences of seller', (db) =>
    db
      .select({ name: particulars.name, no: particulars.licenceNo, region: particulars.licenceRegion })
      .from(partner)
      .innerJoin(seller, eq(seller.id, partner.sellerId))
      .innerJoin(particulars, and(eq(particulars.personId, partner.personId), eq(particulars.saleId, seller.saleId)))
      .where(eq(partner.sellerId, given('sellerId')))
      .orderBy(asc(partner.position))
      .prepare(),
  );
  const all = find.all({ sellerId }).map(({ name, no, region }) => (no === '' ? name : `licence ${region} ${no}`));
  return [...new Set(all)].sort();
}

interface Asked {
  readonly season: string;
  readonly goods: string;
  readonly licences: readonly string[];
  /** A lot that is being changed and does not count against itself. */
  readonly exceptLotId: number | null;
}

/** Pieces that went home unsold may come back, so only those that are here or were sold count. */
export function piecesBrought(book: Book, { season, goods: code, licences, exceptLotId }: Asked): number {
  const find = book.prepared('lots of goods of seller', () =>
    book.sqlite.prepare<[number, string], LotCells>(LOTS).raw(),
  );
  let pieces = 0;
  for (const sellerId of sellersOf(book, season, licences)) {
    for (const [lotId, count] of find.all(sellerId, code) as LotCells[]) {
      if (lotId === exceptLotId || count === null) continue;
      const kind = standingOutcome(book, lotId)?.kind;
      if (kind !== 'passed' && kind !== 'withdrawn') pieces += count;
    }
  }
  return pieces;
}

type LotCells = readonly [lotId: number, count: number | null];

const LOTS = `
  SELECT lot.id, lot.count FROM lot JOIN goods ON goods.id = +lot.goods_id WHERE lot.seller_id = ? AND goods.goods = ?`;

/** The seller numbers of a season behind which are just these licences: among those of whoever has the first of them. */
function sellersOf(book: Book, season: string, licences: readonly string[]): number[] {
  const [first] = licences;
  if (first === undefined) return [];
  const find = book.prepared('sellers by licence', () => book.sqlite.prepare<[object], number>(SELLERS).pluck());
  const key = licences.join('\n');
  const found = find.all({ season, licence: first });
  return found.filter((sellerId) => licencesOfSeller(book, sellerId).join('\n') === key);
}

const SELLERS = `
  SELECT DISTINCT seller.id FROM sale CROSS JOIN particulars ON particulars.sale_id = sale.id
    CROSS JOIN partner ON partner.person_id = particulars.person_id
    CROSS JOIN seller ON seller.id = partner.seller_id AND seller.sale_id = sale.id
  WHERE sale.season = :season AND :licence = CASE particulars.licence_no WHEN '' THEN particulars.name
    ELSE 'licence ' || particulars.licence_region || ' ' || particulars.licence_no END`;
