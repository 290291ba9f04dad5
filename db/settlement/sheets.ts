/** Settlement sheets: the facts each is made from, a preview of one, and the issued ones as they were frozen. */
import { and, asc, eq, inArray, or, type SQL, sql } from 'drizzle-orm';
import { QueryBuilder } from 'drizzle-orm/sqlite-core';
import { lotNoOf, nextNumber } from '#db/book/find.ts';
import { logHead } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { saleFacts, sellerFacts } from '#db/sale/facts.ts';
import { theAssociation } from '#db/sale/queries.ts';
import {
  boughtFromBy,
  buyersIn,
  lotsIn,
  ownedBySeller,
  type Scope,
  type ScopeKind,
  scoped,
  sellersIn,
} from '#db/sale/scope.ts';
import { buyer, lot, particulars, partner, seller, settlement, tag } from '#db/schema/index.ts';
import { saidTags } from '#db/tag/queries.ts';
import { emptyFacts, factsOfRow, fieldNames, pick } from '#lib/field/fields.ts';
import { CONTACT_FIELDS, PERSON_FIELDS } from '#lib/person/fields.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Person, SaleFacts } from '#lib/sale/facts.ts';
import type { CorrectionSheet } from '#lib/settlement/correction.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';
import type { SellerFile, SheetAssociation, SheetStamp, SheetTag } from '#lib/settlement/parties.ts';
import { settlementSheet } from '#lib/settlement/sheet.ts';

/** An issued sheet with its row's id. */
export interface IssuedSheet {
  readonly settlementId: number;
  readonly number: number;
  readonly sellerNo: number;
  /** The settlement as it stands on the sheet, also on a correction sheet. */
  readonly sheet: SettlementSheet;
  /** What a correction sheet says has changed; null for a first sheet. */
  readonly correction: CorrectionSheet | null;
}

/** The facts behind the sheet of each seller number of a sale, by number. Each table is read once for all of them. */
export function sellerFiles(book: Book, saleId: number): SellerFile[] {
  return sellerFilesOf(book, saleId, { facts: saleFacts(book, saleId) });
}

interface SellerRead {
  readonly facts: SaleFacts;
  /** All of the sale's, where they are not given. */
  readonly people?: readonly Person[];
  readonly tags?: readonly SheetTag[];
}

/** The same out of facts that were read already. */
export function sellerFilesOf(
  book: Book,
  saleId: number,
  { facts, people = peopleIn(book, saleId, null), tags: read = tagsIn(book, saleId, null) }: SellerRead,
): SellerFile[] {
  const { sale, goods, buyers } = facts;
  const shared = { association: associationFacts(book), sale, goods, buyers };
  const byRef = new Map(people.map((one) => [one.personId, one]));
  const sellerOfLot = new Map(facts.lots.map(({ lotNo, sellerNo }) => [lotNo, sellerNo]));
  const lots = groupBy(facts.lots, ({ sellerNo }) => sellerNo);
  const outcomes = groupBy(facts.outcomes, ({ lotNo }) => sellerOfLot.get(lotNo));
  const charges = groupBy(facts.charges, ({ sellerNo }) => sellerNo);
  const tags = groupBy(read, ({ lotNo }) => sellerOfLot.get(lotNo));
  return facts.sellers.map((one) => ({
    ...shared,
    seller: one,
    people: one.partners.flatMap(({ personId }) => byRef.get(personId) ?? []),
    lots: lots.get(one.sellerNo) ?? [],
    outcomes: outcomes.get(one.sellerNo) ?? [],
    charges: charges.get(one.sellerNo) ?? [],
    tags: tags.get(one.sellerNo) ?? [],
  }));
}

/** The facts behind one sheet, reading what is this seller number's only; undefined where the sale has no such number. */
export function sellerFile(book: Book, saleId: number, sellerNo: number): SellerFile | undefined {
  const scope = { sellerNo };
  const [people, tags] = [peopleIn(book, saleId, scope), tagsIn(book, saleId, scope)];
  return sellerFilesOf(book, saleId, { facts: sellerFacts(book, saleId, sellerNo), people, tags })[0];
}

/** The sheets as they would be issued now, without a number. `drawnOn` is an ISO 8601 date. */
export function previewSheets(book: Book, saleId: number, drawnOn: string): SettlementSheet[] {
  const stamp = previewStamp(book, drawnOn);
  return sellerFiles(book, saleId).map((file) => settlementSheet(file, stamp));
}

/** One of those, or undefined where the sale has no such seller number. */
export function previewSheet(
  book: Book,
  { saleId, sellerNo }: { saleId: number; sellerNo: number },
  drawnOn: string,
): SettlementSheet | undefined {
  const file = sellerFile(book, saleId, sellerNo);
  return file && settlementSheet(file, previewStamp(book, drawnOn));
}

function previewStamp(book: Book, drawnOn: string): SheetStamp {
  return { number: null, issuedOn: drawnOn, head: logHead(book) };
}

const issuedColumns = {
  settlementId: settlement.id,
  number: settlement.number,
  sellerNo: seller.sellerNo,
  model: settlement.model,
};

/** A buyer's papers ask for no sheets. */
const findIssued = scoped(({ db }, kind) =>
  db
    .select(issuedColumns)
    .from(settlement)
    .innerJoin(seller, eq(seller.id, settlement.sellerId))
    .where(kind === 'sale' ? equals(settlement.saleId, 'saleId') : kind === 'seller' ? sellersIn(kind) : sql`0`)
    .orderBy(asc(seller.sellerNo), asc(settlement.number)),
);

/** The issued sheets of a sale, or of the seller numbers of a scope, by number, and of one number the older first. */
export function issuedSheets(book: Book, saleId: number, scope: Scope = null): IssuedSheet[] {
  return findIssued(book, saleId, scope).map(thawed);
}

/** The issued sheets of one seller number, the older first. */
export function sheetsOfSeller(book: Book, saleId: number, sellerNo: number): IssuedSheet[] {
  return issuedSheets(book, saleId, { sellerNo });
}

const findSheet = query(({ db }) =>
  db
    .select(issuedColumns)
    .from(settlement)
    .innerJoin(seller, eq(seller.id, settlement.sellerId))
    .where(equals(settlement.id, 'settlementId')),
);

/** One issued sheet by its row, or undefined. */
export function issuedSheet(book: Book, settlementId: number): IssuedSheet | undefined {
  const row = findSheet(book).get({ settlementId });
  return row && thawed(row);
}

type IssuedRow = Omit<IssuedSheet, 'sheet' | 'correction'> & { readonly model: string };

function thawed({ model, ...row }: IssuedRow): IssuedSheet {
  const paper = JSON.parse(model) as SettlementSheet | CorrectionSheet;
  return paper.paper === 'correction-sheet'
    ? { ...row, sheet: paper.now, correction: paper }
    : { ...row, sheet: paper, correction: null };
}

/** The newest of the sheets of each seller number, by number. */
export function newestSheets(sheets: readonly IssuedSheet[]): Map<number, IssuedSheet> {
  return new Map(sheets.map((issued) => [issued.sellerNo, issued]));
}

/** Issued sheets are never deleted, so one behind the highest leaves no gap. */
export const nextSheetNumber = nextNumber(settlement, settlement.number);

const findNames = scoped(({ db }, kind) =>
  db
    .select({ sellerNo: seller.sellerNo, name: particulars.name })
    .from(seller)
    .innerJoin(partner, eq(partner.sellerId, seller.id))
    .innerJoin(particulars, and(eq(particulars.saleId, seller.saleId), eq(particulars.personId, partner.personId)))
    .where(sellersIn(kind))
    .orderBy(asc(seller.sellerNo), asc(partner.position)),
);

/** The partners' names behind each seller number of a sale, or of a scope of it, in their order. */
export function namesOfSellers(book: Book, saleId: number, scope: Scope = null): Map<number, string[]> {
  const bySeller = groupBy(findNames(book, saleId, scope), ({ sellerNo }) => sellerNo);
  return new Map([...bySeller].map(([sellerNo, own]) => [sellerNo, own.map(({ name }) => name)]));
}

const NO_NAME: SheetAssociation = { name: 'The association', ...emptyFacts(CONTACT_FIELDS) };

/** The association as it is named now; a book that was filled from a folder may not have been given its name yet. */
export function associationFacts(book: Book): SheetAssociation {
  const row = theAssociation(book);
  if (!row) return NO_NAME;
  return { name: row.name, ...factsOfRow(CONTACT_FIELDS, row) };
}

/** The people behind the seller numbers of a scope; of buyers these, and those behind the numbers they bought from. */
export const peopleIn = scoped(({ db }, kind) => {
  const columns = { personId: particulars.ref, ...pick(particulars, fieldNames(PERSON_FIELDS)) };
  const inSale = equals(particulars.saleId, 'saleId');
  return db
    .select(columns)
    .from(particulars)
    .where(kind === 'sale' ? inSale : and(inSale, peopleBehind(kind)))
    .orderBy(asc(particulars.id));
});

function peopleBehind(kind: ScopeKind): SQL | undefined {
  const behind = new QueryBuilder().select({ id: partner.personId }).from(partner);
  if (kind === 'seller') return inArray(particulars.personId, behind.where(ownedBySeller(partner.sellerId)));
  const buyers = new QueryBuilder().select({ id: buyer.personId }).from(buyer).where(buyersIn(kind));
  return or(
    inArray(particulars.personId, buyers),
    inArray(particulars.personId, behind.where(boughtFromBy(partner.sellerId))),
  );
}

const findTags = scoped(({ db }, kind) =>
  db
    .select({
      ...pick(lot, ['lotNumber', 'lotLetter']),
      ...pick(tag, ['lotId', 'tag', 'condition', 'brokeAt', 'replaces']),
    })
    .from(lot)
    .innerJoin(tag, eq(tag.lotId, lot.id))
    .where(lotsIn(kind))
    .orderBy(asc(lot.lotNumber), asc(lot.lotLetter), asc(tag.position), asc(tag.id)),
);

/** The export tags on the lots of a scope by lot, each lot's in their order. */
export function tagsIn(book: Book, saleId: number, scope: Scope): SheetTag[] {
  const byLot = groupBy(findTags(book, saleId, scope), ({ lotId }) => lotId);
  return [...byLot.values()].flatMap((group) => {
    const [first] = group;
    return first ? saidTags(group).map((said) => ({ lotNo: lotNoOf(first), ...said })) : [];
  });
}
