/** Settlement sheets: the facts each is made from, a preview of one, and the issued ones as they were frozen. */
import { eq, max, sql } from 'drizzle-orm';
import type { Person, SaleFacts } from '#lib/facts.ts';
import { emptyFacts, factsOfRow } from '#lib/field/fields.ts';
import { groupBy } from '#lib/group.ts';
import type { CorrectionSheet } from '#lib/payout/correction.ts';
import { CONTACT_FIELDS } from '#lib/person/fields.ts';
import type { SellerFile, SheetAssociation, SheetStamp, SheetTag } from '#lib/sheet/input.ts';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import { settlementSheet } from '#lib/sheet/settlement-sheet.ts';
import { logHead } from '../log.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { association, seller, settlement } from '../schema/index.ts';
import { saleFacts, sellerFacts } from './sale-facts.ts';
import { BOUGHT, OF_LOTS, type Scope, scopedRows } from './scope.ts';
import { type SayableTag, saidTags } from './tags.ts';

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
  const scope = { sellerNo };
  return sellerFilesIn(book, saleId, { scope, facts: sellerFacts(book, saleId, sellerNo) })[0];
}

/** The same of the seller numbers of a scope, whose facts were read already. */
export function sellerFilesIn(
  book: Book,
  saleId: number,
  { scope, facts }: { readonly scope: Scope; readonly facts: SaleFacts },
): SellerFile[] {
  const [people, tags] = [peopleIn(book, saleId, scope), tagsIn(book, saleId, scope)];
  return sellerFilesOf(book, saleId, { facts, people, tags });
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

const ISSUED = {
  name: 'issued sheets',
  by: { seller: OF_LOTS.seller, buyer: '0' },
  text: `
    SELECT settlement.id AS settlementId, settlement.number, seller.seller_no AS sellerNo, settlement.model
    FROM settlement JOIN seller ON seller.id = settlement.seller_id
    WHERE settlement.sale_id = :saleId AND {scope} ORDER BY seller.seller_no, settlement.number`,
};

/** The issued sheets of a sale, or of the seller numbers of a scope, by number, and of one number the older first. */
export function issuedSheets(book: Book, saleId: number, scope: Scope = null): IssuedSheet[] {
  return scopedRows<IssuedRow>(book, ISSUED, { saleId, scope }).map(thawed);
}

/** The issued sheets of one seller number, the older first. */
export function sheetsOfSeller(book: Book, saleId: number, sellerNo: number): IssuedSheet[] {
  return issuedSheets(book, saleId, { sellerNo });
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
  const find = book.prepared('highest sheet number', (db) =>
    db
      .select({ highest: max(settlement.number) })
      .from(settlement)
      .where(eq(settlement.saleId, sql.placeholder('saleId')))
      .prepare(),
  );
  return (find.get({ saleId })?.highest ?? 0) + 1;
}

const NAMES = {
  name: 'names of sellers',
  by: { seller: OF_LOTS.seller, buyer: '0' },
  text: `
    SELECT seller.seller_no AS sellerNo, particulars.name
    FROM seller JOIN partner ON partner.seller_id = seller.id
    JOIN particulars ON particulars.sale_id = seller.sale_id AND particulars.person_id = partner.person_id
    WHERE seller.sale_id = :saleId AND {scope} ORDER BY seller.seller_no, partner.position`,
};

/** The partners' names behind each seller number of a sale, or of a scope of it, in their order. */
export function namesOfSellers(book: Book, saleId: number, scope: Scope = null): Map<number, string[]> {
  const rows = scopedRows<{ readonly sellerNo: number; readonly name: string }>(book, NAMES, { saleId, scope });
  const names = new Map<number, string[]>();
  for (const { sellerNo, name } of rows) names.set(sellerNo, [...(names.get(sellerNo) ?? []), name]);
  return names;
}

const NO_NAME: SheetAssociation = { name: 'The association', ...emptyFacts(CONTACT_FIELDS) };

/** The association as it is named now; a book that was filled from a folder may not have been given its name yet. */
export function associationFacts(book: Book): SheetAssociation {
  const row = book.prepared('association', (db) => db.select().from(association).prepare()).get();
  if (!row) return NO_NAME;
  return { name: row.name, ...factsOfRow(CONTACT_FIELDS, row) };
}

/** Everybody as they stood at the sale. */
function peopleOf(book: Book, saleId: number): Person[] {
  return peopleIn(book, saleId, null);
}

const PEOPLE = {
  name: 'people as they stood',
  by: {
    seller: `person_id IN (
      SELECT partner.person_id FROM partner JOIN seller ON seller.id = partner.seller_id
      WHERE seller.sale_id = :saleId AND seller.seller_no = :sellerNo)`,
    buyer: `(person_id IN (SELECT buyer.person_id FROM buyer WHERE sale_id = :saleId AND buyer_no = :buyerNo)
      OR person_id IN (SELECT partner.person_id FROM partner JOIN lot ON lot.seller_id = partner.seller_id WHERE ${BOUGHT}))`,
  },
  text: `
    SELECT ref AS personId, name, street, city, region, postcode, phone, email, member_no AS memberNo,
      member_until AS memberUntil, licence_no AS licenceNo, licence_region AS licenceRegion,
      licence_expires AS licenceExpires
    FROM particulars WHERE sale_id = :saleId AND {scope}`,
};

/** The people behind the seller numbers of a scope; of buyers these, and those behind the numbers they bought from. */
export function peopleIn(book: Book, saleId: number, scope: Scope): Person[] {
  return scopedRows<Person>(book, PEOPLE, { saleId, scope });
}

/** The export tags of a sale by lot, each lot's in their order. */
function tagsOfSale(book: Book, saleId: number): SheetTag[] {
  return tagsIn(book, saleId, null);
}

const TAGS = {
  name: 'tags on sheets',
  by: OF_LOTS,
  text: `
    SELECT lot.lot_number AS lotNumber, lot.lot_letter AS lotLetter, lot.id AS lotId, tag.tag, tag.condition,
      tag.broke_at AS brokeAt, tag.replaces
    FROM lot JOIN seller ON seller.id = lot.seller_id JOIN tag ON tag.lot_id = lot.id
    WHERE lot.sale_id = :saleId AND {scope} ORDER BY lot.lot_number, lot.lot_letter, tag.position, tag.id`,
};

interface TagCells extends SayableTag {
  readonly lotId: number;
  readonly lotNumber: number;
  readonly lotLetter: string;
}

/** The export tags on the lots of a scope. */
export function tagsIn(book: Book, saleId: number, scope: Scope): SheetTag[] {
  const rows = scopedRows<TagCells>(book, TAGS, { saleId, scope });
  return [...groupBy(rows, ({ lotId }) => lotId).values()].flatMap((group) => {
    const [first] = group;
    return first ? saidTags(group).map((said) => ({ lotNo: lotNoOf(first), ...said })) : [];
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
