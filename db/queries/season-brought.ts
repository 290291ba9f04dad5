/** How many pieces of some goods the licences behind a seller number have brought in a season. */
import { and, asc, eq, sql } from 'drizzle-orm';
import type { Book } from '../open.ts';
import { goods, lot, particulars, partner, sale, seller } from '../schema/index.ts';
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
  const find = book.prepared('lots of goods in season', (db) =>
    db
      .select({ lotId: lot.id, sellerId: lot.sellerId, count: lot.count })
      .from(lot)
      .innerJoin(goods, eq(goods.id, lot.goodsId))
      .innerJoin(sale, eq(sale.id, lot.saleId))
      .where(and(eq(goods.goods, given('code')), eq(sale.season, given('season'))))
      .prepare(),
  );
  const key = licences.join('\n');
  const same = new Map<number, boolean>();
  let pieces = 0;
  for (const { lotId, sellerId, count } of find.all({ code, season })) {
    const theirs = same.get(sellerId) ?? licencesOfSeller(book, sellerId).join('\n') === key;
    same.set(sellerId, theirs);
    if (!theirs || lotId === exceptLotId || count === null) continue;
    const kind = standingOutcome(book, lotId)?.kind;
    if (kind !== 'passed' && kind !== 'withdrawn') pieces += count;
  }
  return pieces;
}
