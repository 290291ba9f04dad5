/** Settlement sheets: the facts each is made from, a preview of one, and the issued ones as they were frozen. */
import { and, asc, eq, max, type SQL, sql } from 'drizzle-orm';
import type { Person, SaleFacts } from '#lib/facts.ts';
import type { CorrectionSheet } from '#lib/payout/correction.ts';
import type { SellerFile, SheetAssociation, SheetStamp, SheetTag } from '#lib/sheet/input.ts';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import { settlementSheet } from '#lib/sheet/settlement-sheet.ts';
import { groupBy } from '../exchange/group.ts';
import { logHead } from '../log.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { association, lot, particulars, partner, seller, settlement, tag } from '../schema/index.ts';
import { saleFacts, sellerFacts } from './sale-facts.ts';
import { saidTags } from './tags.ts';

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
  { facts, people = peopleOf(book, saleId), tags: read = tagsOfSale(book, saleId) }: SellerRead,
): SellerFile[] {
  const { sale, goods, buyers } = facts;
  const shared = { association: associationFacts(book), sale, goods, buyers, people };
  const sellerOfLot = new Map(facts.lots.map(({ lotNo, sellerNo }) => [lotNo, sellerNo]));
  const lots = bySeller(facts.lots, ({ sellerNo }) => sellerNo);
  const outcomes = bySeller(facts.outcomes, ({ lotNo }) => sellerOfLot.get(lotNo));
  const charges = bySeller(facts.charges, ({ sellerNo }) => sellerNo);
  const tags = bySeller(read, ({ lotNo }) => sellerOfLot.get(lotNo));
  return facts.sellers.map((one) => ({
    ...shared,
    seller: one,
    lots: lots.get(one.sellerNo) ?? [],
    outcomes: outcomes.get(one.sellerNo) ?? [],
    charges: charges.get(one.sellerNo) ?? [],
    tags: tags.get(one.sellerNo) ?? [],
  }));
}

/** The facts behind one sheet, reading what is this seller number's only; undefined where the sale has no such number. */
export function sellerFile(book: Book, saleId: number, sellerNo: number): SellerFile | undefined {
  return sellerFilesOf(book, saleId, {
    facts: sellerFacts(book, saleId, sellerNo),
    people: partnersOf(book, saleId, sellerNo),
    tags: tagsOfSeller(book, saleId, sellerNo),
  })[0];
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

/** The issued sheets of a sale by seller number, and of one number the older first. */
export function issuedSheets(book: Book, saleId: number): IssuedSheet[] {
  const find = book.prepared('issued sheets', (db) =>
    db
      .select(issuedColumns)
      .from(settlement)
      .innerJoin(seller, eq(seller.id, settlement.sellerId))
      .where(eq(settlement.saleId, sql.placeholder('saleId')))
      .orderBy(asc(seller.sellerNo), asc(settlement.number))
      .prepare(),
  );
  return find.all({ saleId }).map(thawed);
}

/** The issued sheets of one seller number, the older first. */
export function sheetsOfSeller(book: Book, saleId: number, sellerNo: number): IssuedSheet[] {
  const find = book.prepared('issued sheets of a seller', (db) =>
    db
      .select(issuedColumns)
      .from(settlement)
      .innerJoin(seller, eq(seller.id, settlement.sellerId))
      .where(and(eq(settlement.saleId, sql.placeholder('saleId')), eq(seller.sellerNo, sql.placeholder('sellerNo'))))
      .orderBy(asc(settlement.number))
      .prepare(),
  );
  return find.all({ saleId, sellerNo }).map(thawed);
}

/** One issued sheet by its row, or undefined. */
export function issuedSheet(book: Book, settlementId: number): IssuedSheet | undefined {
  const find = book.prepared('issued sheet', (db) =>
    db
      .select(issuedColumns)
      .from(settlement)
      .innerJoin(seller, eq(seller.id, settlement.sellerId))
      .where(eq(settlement.id, sql.placeholder('settlementId')))
      .prepare(),
  );
  const row = find.get({ settlementId });
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
export function nextSheetNumber(book: Book, saleId: number): number {
  const row = book.db
    .select({ highest: max(settlement.number) })
    .from(settlement)
    .where(eq(settlement.saleId, saleId))
    .get();
  return (row?.highest ?? 0) + 1;
}

/** The partners' names behind each seller number of a sale, in their order. */
export function namesOfSellers(book: Book, saleId: number): Map<number, string[]> {
  const rows = book.db
    .select({ sellerNo: seller.sellerNo, name: particulars.name })
    .from(partner)
    .innerJoin(seller, eq(seller.id, partner.sellerId))
    .innerJoin(particulars, and(eq(particulars.personId, partner.personId), eq(particulars.saleId, saleId)))
    .where(eq(seller.saleId, saleId))
    .orderBy(asc(seller.sellerNo), asc(partner.position))
    .all();
  const names = new Map<number, string[]>();
  for (const { sellerNo, name } of rows) names.set(sellerNo, [...(names.get(sellerNo) ?? []), name]);
  return names;
}

const NO_NAME: SheetAssociation = { name: 'The association', ...empty() };

function empty() {
  return { street: '', city: '', region: '', postcode: '', phone: '', email: '' };
}

/** The association as it is named now; a book that was filled from a folder may not have been given its name yet. */
export function associationFacts(book: Book): SheetAssociation {
  const row = book.db.select().from(association).get();
  if (!row) return NO_NAME;
  const { name, street, city, region, postcode, phone, email } = row;
  return { name, street, city, region, postcode, phone, email };
}

/** Everybody as they stood at the sale. */
export function peopleOf(book: Book, saleId: number): Person[] {
  return book.db.select().from(particulars).where(eq(particulars.saleId, saleId)).all().map(personOf);
}

/** The people behind one seller number as they stood at the sale. */
function partnersOf(book: Book, saleId: number, sellerNo: number): Person[] {
  const rows = book.db
    .select({ particulars })
    .from(particulars)
    .innerJoin(partner, eq(partner.personId, particulars.personId))
    .innerJoin(seller, eq(seller.id, partner.sellerId))
    .where(and(eq(particulars.saleId, saleId), eq(seller.saleId, saleId), eq(seller.sellerNo, sellerNo)))
    .all();
  return rows.map((row) => personOf(row.particulars));
}

function personOf({ ref, ...row }: typeof particulars.$inferSelect): Person {
  const { name, street, city, region, postcode, phone, email } = row;
  const { memberNo, memberUntil, licenceNo, licenceRegion, licenceExpires } = row;
  const address = { name, street, city, region, postcode, phone, email };
  return { personId: ref, ...address, memberNo, memberUntil, licenceNo, licenceRegion, licenceExpires };
}

/** The export tags of a sale by lot, each lot's in their order. */
export function tagsOfSale(book: Book, saleId: number): SheetTag[] {
  return tagsWhere(book, eq(lot.saleId, saleId));
}

function tagsOfSeller(book: Book, saleId: number, sellerNo: number): SheetTag[] {
  return tagsWhere(book, and(eq(lot.saleId, saleId), eq(seller.sellerNo, sellerNo)));
}

function tagsWhere(book: Book, which: SQL | undefined): SheetTag[] {
  const { lotNumber, lotLetter } = lot;
  const rows = book.db
    .select({ lotNumber, lotLetter, tag })
    .from(tag)
    .innerJoin(lot, eq(lot.id, tag.lotId))
    .innerJoin(seller, eq(seller.id, lot.sellerId))
    .where(which)
    .orderBy(asc(lotNumber), asc(lotLetter), asc(tag.position), asc(tag.id))
    .all();
  return [...groupBy(rows, ({ tag: own }) => own.lotId).values()].flatMap((group) => {
    const [first] = group;
    return first ? saidTags(group.map(({ tag: own }) => own)).map((said) => ({ lotNo: lotNoOf(first), ...said })) : [];
  });
}

function bySeller<T>(rows: readonly T[], sellerNoOf: (row: T) => number | undefined): Map<number, T[]> {
  const groups = new Map<number, T[]>();
  for (const row of rows) {
    const sellerNo = sellerNoOf(row);
    if (sellerNo === undefined) continue;
    const group = groups.get(sellerNo);
    if (group) group.push(row);
    else groups.set(sellerNo, [row]);
  }
  return groups;
}
