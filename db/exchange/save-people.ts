/** Takes the people of a folder into the book: those it knows already, and new ones. */
import { eq, max } from 'drizzle-orm';
import type { CommandContext } from '#db/book/command.ts';
import { addRow } from '#db/book/rows.ts';
import { amendPerson, saveParticulars, savePerson } from '#db/person/save.ts';
import { buyer, particulars, person, sale } from '#db/schema/index.ts';
import { saveSeller } from '#db/seller/commands.ts';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { emptyFacts, factsOfCells, pick } from '#lib/field/fields.ts';
import { foldName } from '#lib/result/search.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Person } from '#lib/sale/facts.ts';
import type { WholeRows } from './read-table.ts';
import type { RowOf } from './tables.ts';

/**
 * Gives each person of the folder the book's own row, by the folder's id, with what they showed at this sale.
 * What the book knows of them now is only brought up to date by a sale as new as their newest.
 */
export function savePeople(
  context: CommandContext,
  at: { readonly saleId: number; readonly heldOn: string },
  people: readonly Person[],
): Map<string, number> {
  const matched = matchPeople(knownPeople(context), people);
  const newest = newestSales(context);
  for (const own of people) {
    const id = matched.get(own.personId);
    if (id !== undefined && (newest.get(id) ?? '9999') <= at.heldOn) amendPerson(context, id, own);
  }
  const ids = new Map([...matched, ...addPeople(context, people, matched)]);
  for (const own of people) {
    const personId = ids.get(own.personId);
    if (personId !== undefined) saveParticulars(context, { saleId: at.saleId, personId }, own);
  }
  return ids;
}

function knownPeople({ book }: CommandContext) {
  const columns = pick(person, ['id', 'ref', 'memberNo', 'nameFolded']);
  return book.db.select(columns).from(person).orderBy(person.id).all();
}

/** Nobody is taken for two: an id with the same name goes before a member number with the same name. */
function matchPeople(known: ReturnType<typeof knownPeople>, people: readonly Person[]): Map<string, number> {
  const byRef = new Map(known.map((one) => [JSON.stringify([one.ref, one.nameFolded]), one.id]));
  const members = known.filter(({ memberNo }) => memberNo !== '');
  const byMember = new Map(members.map((one) => [JSON.stringify([one.memberNo, one.nameFolded]), one.id]));
  const matched = new Map<string, number>();
  const claimed = new Set<number>();
  const claim = (personId: string, id: number | undefined) => {
    if (id === undefined || claimed.has(id) || matched.has(personId)) return;
    matched.set(personId, id);
    claimed.add(id);
  };
  for (const { personId, name } of people) claim(personId, byRef.get(JSON.stringify([personId, foldName(name)])));
  for (const { personId, name, memberNo } of people) {
    claim(personId, byMember.get(JSON.stringify([memberNo, foldName(name)])));
  }
  return matched;
}

/** The day of the newest sale each person was at; somebody who was only enrolled has none. */
function newestSales({ book }: CommandContext): Map<number, string> {
  const rows = book.db
    .select({ personId: particulars.personId, heldOn: max(sale.heldOn) })
    .from(particulars)
    .innerJoin(sale, eq(sale.id, particulars.saleId))
    .groupBy(particulars.personId)
    .all();
  return new Map(rows.flatMap(({ personId, heldOn }) => (heldOn === null ? [] : [[personId, heldOn] as const])));
}

/** Ids that are free in the book go to those who bring them, before any is drawn for somebody whose id is taken. */
function addPeople(
  context: CommandContext,
  people: readonly Person[],
  matched: ReadonlyMap<string, number>,
): Map<string, number> {
  const taken = new Set(knownPeople(context).map(({ ref }) => ref));
  const fresh = people.filter(({ personId }) => !matched.has(personId));
  const added = new Map<string, number>();
  const add = (own: Person, ref: string) => added.set(own.personId, savePerson(context, ref, own).id);
  for (const own of fresh.filter(({ personId }) => !taken.has(personId))) add(own, own.personId);
  for (const own of fresh.filter(({ personId }) => taken.has(personId))) add(own, '');
  return added;
}

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

/** Writes the seller and buyer numbers of a folder, and gives the book's ids by number. */
export function saveParties(context: CommandContext, at: At, rows: WholeRows): Parties {
  const sellers = new Map<number, number>();
  for (const [sellerNo, partners] of groupBy(rows.sellers, ({ seller_no }) => seller_no)) {
    const own = partners.map(({ person_id, parts }) => ({ personId: known(at.people, person_id), parts }));
    const fields = { saleId: at.saleId, sellerNo, broughtBy: '', arrivedAt: null };
    sellers.set(sellerNo, saveSeller(context, fields, own));
  }
  const buyers = new Map(rows.buyers.map((row) => [row.buyer_no, saveBuyerRow(context, at, row)]));
  return { people: at.people, sellers, buyers };
}

type At = { readonly saleId: number; readonly people: Parties['people'] };

function saveBuyerRow(context: CommandContext, at: At, row: RowOf<'buyers'>): number {
  const { buyer_no: buyerNo, person_id, cleared, ...cells } = row;
  return addRow(context, buyer, {
    ...emptyFacts(BUYER_FIELDS),
    ...factsOfCells(BUYER_FIELDS, cells),
    ...{ saleId: at.saleId, buyerNo, personId: known(at.people, person_id) },
    ...{ cleared, clearedBy: cleared ? context.worker : '' },
  });
}
