/** Writes the seller and buyer numbers of a folder, and gives the book's ids by number. */
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { emptyFacts, factsOfCells } from '#lib/field/fields.ts';
import { groupBy } from '#lib/group.ts';
import type { CommandContext } from '../command.ts';
import { saveBuyer } from '../save/buyer-and-payment.ts';
import { saveSeller } from '../save/seller.ts';
import type { WholeRows } from './rows.ts';
import type { RowOf } from './tables.ts';

export interface Parties {
  /** The book's ids of the people, by the folder's id. */
  readonly people: ReadonlyMap<string, number>;
  readonly sellers: ReadonlyMap<number, number>;
  readonly buyers: ReadonlyMap<number, number>;
}

/** An id that must be there, because the folder's references were checked. */
export function known<K>(ids: ReadonlyMap<K, number>, key: K): number {
  const id = ids.get(key);
  if (id === undefined) throw new RangeError(`nothing in the folder is called ${String(key)}`);
  return id;
}

export function knownOrNull<K>(ids: ReadonlyMap<K, number>, key: K | null): number | null {
  return key === null ? null : known(ids, key);
}

export function saveParties(
  context: CommandContext,
  at: { saleId: number; people: Parties['people'] },
  rows: WholeRows,
): Parties {
  const sellers = new Map<number, number>();
  for (const [sellerNo, partners] of groupBy(rows.sellers, ({ seller_no }) => seller_no)) {
    const own = partners.map(({ person_id, parts }) => ({ personId: known(at.people, person_id), parts }));
    const fields = { saleId: at.saleId, sellerNo, broughtBy: '', arrivedAt: null };
    sellers.set(sellerNo, saveSeller(context, fields, own));
  }
  const buyers = new Map(rows.buyers.map((row) => [row.buyer_no, saveBuyerRow(context, at, row)]));
  return { people: at.people, sellers, buyers };
}

function saveBuyerRow(
  context: CommandContext,
  at: { saleId: number; people: Parties['people'] },
  row: RowOf<'buyers'>,
): number {
  const { buyer_no: buyerNo, person_id, cleared, ...cells } = row;
  return saveBuyer(context, {
    ...emptyFacts(BUYER_FIELDS),
    ...factsOfCells(BUYER_FIELDS, cells),
    ...{ saleId: at.saleId, buyerNo, personId: known(at.people, person_id) },
    ...{ cleared, clearedBy: cleared ? context.worker : '' },
  });
}
