/**
 * What follows from sums over unknown lots: a sum over a group is known exactly where the group is a combination of the
 * groups whose sums were said. Read from the tables by SQL of its own, and not by what the price pages use.
 */
import type Database from 'better-sqlite3';

export interface SoldLot {
  /** The sale's id and the lot's number. */
  readonly id: string;
  readonly saleId: number;
  readonly season: string;
  readonly goods: string;
  readonly measure: string;
  readonly section: string;
  readonly size: string;
  readonly grade: string;
  readonly form: string;
  /** The same for all seller numbers of a season that share a person. */
  readonly business: string;
  readonly buyer: number;
}

/** A row of the price files. */
export interface Ranged {
  readonly goods: string;
  readonly measure: string;
  readonly covers: string;
  readonly part: string;
  readonly lots: number;
  readonly low: string;
  readonly p25: string;
  readonly median: string;
  readonly p75: string;
  readonly high: string;
  readonly average: string;
}

export function soldLots(sqlite: Database.Database): SoldLot[] {
  const partners = sqlite
    .prepare<[], { season: string; sellerId: number; personId: number }>(
      `SELECT s.season, p.seller_id AS sellerId, p.person_id AS personId
       FROM partner p JOIN seller n ON n.id = p.seller_id JOIN sale s ON s.id = n.sale_id`,
    )
    .all();
  const rows = sqlite
    .prepare<[], Omit<SoldLot, 'business'> & { sellerId: number }>(
      `SELECT s.id || ' ' || l.lot_number || l.lot_letter AS id, s.id AS saleId, s.season, g.goods,
         CASE l.by WHEN 'lot' THEN 'piece' ELSE l.by END AS measure,
         l.section, l.size, l.grade, replace(l.form, '_', ' ') AS form, l.seller_id AS sellerId, b.person_id AS buyer
       FROM standing_outcome o JOIN lot l ON l.id = o.lot_id JOIN goods g ON g.id = l.goods_id
         JOIN sale s ON s.id = l.sale_id LEFT JOIN buyer b ON b.id = o.buyer_id
       WHERE o.kind = 'sold'`,
    )
    .all();
  return rows.map(({ sellerId, ...lot }) => ({ ...lot, business: businessOf(lot.season, sellerId) }));

  /** Goes from number to number over the people they share until nothing new is found; the smallest one names it. */
  function businessOf(season: string, sellerId: number): string {
    const found = new Set([sellerId]);
    for (let before = 0; before < found.size; ) {
      before = found.size;
      const own = partners.filter((one) => one.season === season);
      const people = new Set(own.filter((one) => found.has(one.sellerId)).map(({ personId }) => personId));
      for (const one of own) if (people.has(one.personId)) found.add(one.sellerId);
    }
    return `${season} ${Math.min(...found)}`;
  }
}

const LEVELS = ['section', 'size', 'grade', 'form'] as const;
type Level = (typeof LEVELS)[number];

/** The lots behind each row: a row's levels are its own and those of the rows above it in the file. */
export function rangedRows(rows: readonly Ranged[], sold: readonly SoldLot[]) {
  const above: Level[] = [];
  return rows.map((row) => {
    const values = row.covers === 'goods' ? [] : row.part.split(' / ');
    if (row.covers !== 'goods') above.splice(values.length - 1, above.length, row.covers as Level);
    const fits = (lot: SoldLot) =>
      values.every((value, at) => {
        const level = above[at] ?? 'section';
        return value.split(' + ').includes(lot[level] || `no ${level}`);
      });
    const lots = sold.filter((lot) => lot.goods === row.goods && lot.measure === row.measure && fits(lot));
    return { row, lots };
  });
}

/** Large enough that no accident of arithmetic makes two vectors dependent. */
const PRIME = 1_000_003n;

export interface Span {
  readonly order: ReadonlyMap<string, number>;
  /** By the place of its first figure that is not 0, which is 1. */
  readonly rows: ReadonlyMap<number, bigint[]>;
}

/** Everything that can be put together from the sums over these groups, as rows in echelon form. */
export function spanOf(groups: readonly (readonly SoldLot[])[], all: readonly SoldLot[]): Span {
  const order = new Map(all.map(({ id }, at) => [id, at]));
  const rows = new Map<number, bigint[]>();
  for (const group of groups) {
    const left = reduced({ order, rows }, group);
    const lead = left.findIndex((figure) => figure !== 0n);
    if (lead >= 0)
      rows.set(
        lead,
        left.map((figure) => (figure * inverse(left[lead] ?? 1n)) % PRIME),
      );
  }
  return { order, rows };
}

export function inSpan(span: Span, group: readonly SoldLot[]): boolean {
  return reduced(span, group).every((figure) => figure === 0n);
}

function reduced({ order, rows }: Span, group: readonly SoldLot[]): bigint[] {
  const vector = Array.from({ length: order.size }, () => 0n);
  for (const { id } of group) vector[order.get(id) ?? 0] = 1n;
  for (let at = 0; at < vector.length; at += 1) {
    const figure = vector[at] ?? 0n;
    const row = figure === 0n ? undefined : rows.get(at);
    if (!row) continue;
    for (let place = at; place < vector.length; place += 1)
      vector[place] = ((vector[place] ?? 0n) + (PRIME - figure) * (row[place] ?? 0n)) % PRIME;
  }
  return vector;
}

function inverse(figure: bigint): bigint {
  let [power, result, base] = [PRIME - 2n, 1n, figure];
  for (; power > 0n; power >>= 1n, base = (base * base) % PRIME) if (power & 1n) result = (result * base) % PRIME;
  return result;
}
