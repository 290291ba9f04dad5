/** Everything that can be judged of a folder by itself: its cells, its rows, and how they fit together. */
import { saleById } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { placeOfTag } from '#db/tag/queries.ts';
import { decideSeller } from '#lib/person/person.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Sale } from '#lib/sale/facts.ts';
import { membershipOf } from '#lib/settlement/settlement.ts';
import { decideTagUse, type TagFault } from '#lib/tag/check.ts';
import { checkDuplicates, checkEachRow } from './check-rows.ts';
import { type LotWithTags, lotsWithTags } from './lot-list.ts';
import { type Problem, problemList, type RawFolder, type Report } from './problem.ts';
import { readSale, type SaleBasics, saleBasics, saleLine } from './read-sale.ts';
import { type Row, type Rows, readRows } from './read-table.ts';
import { counts, type RowOf, SALE_FILE, TABLES, type TableName } from './tables.ts';

export interface CheckedFolder {
  /** Undefined where `sale.json` has a problem. */
  readonly sale: Sale | undefined;
  readonly rows: Rows;
  readonly lots: readonly LotWithTags[];
  readonly problems: readonly Problem[];
}

export function checkFolder(raw: RawFolder): CheckedFolder {
  const { problems, report } = problemList();
  const sale = readSale(raw, report);
  const rows = readRows(raw.tables, report);
  checkDuplicates(rows, report);
  checkReferences(raw, rows, report);
  checkEachRow(rows, report);
  const basics = saleBasics(raw);
  checkOverrides(raw, rows, basics, report);
  const parties = partiesOf(rows);
  for (const party of parties) checkMembership(basics, party, report);
  checkSeasonLimits(rows, parties, report);
  const lots = lotsWithTags(basics.region, rows);
  checkTagsOfLots(lots, rows, report);
  checkLate(sale, rows, report);
  return { sale, rows, lots, problems };
}

interface Reference {
  readonly from: TableName;
  readonly column: string;
  readonly to: TableName;
}

const REFERENCES: readonly Reference[] = [
  { from: 'sellers', column: 'person_id', to: 'people' },
  { from: 'buyers', column: 'person_id', to: 'people' },
  { from: 'lots', column: 'seller_no', to: 'sellers' },
  { from: 'lots', column: 'goods', to: 'goods' },
  { from: 'tags', column: 'lot_no', to: 'lots' },
  { from: 'bids', column: 'lot_no', to: 'lots' },
  { from: 'bids', column: 'buyer_no', to: 'buyers' },
  { from: 'results', column: 'lot_no', to: 'lots' },
  { from: 'results', column: 'buyer_no', to: 'buyers' },
  { from: 'charges', column: 'seller_no', to: 'sellers' },
  { from: 'payments', column: 'buyer_no', to: 'buyers' },
  { from: 'payments', column: 'seller_no', to: 'sellers' },
  { from: 'payments', column: 'person_id', to: 'people' },
  { from: 'payments', column: 'deposit', to: 'deposits' },
];

const NOUNS: Readonly<Partial<Record<TableName, string>>> = {
  people: 'person',
  sellers: 'seller number',
  buyers: 'buyer number',
  lots: 'lot',
  goods: 'kind of goods',
  deposits: 'deposit',
};

function checkReferences(raw: RawFolder, rows: Rows, report: Report): void {
  const known = knownKeys(raw, rows);
  const toldOf = new Set<TableName>();
  for (const reference of REFERENCES) {
    const keys = known.get(reference.to);
    if (keys === undefined) continue;
    for (const { line, value } of strays(rows, reference, keys)) {
      // One missing file is one problem, however many rows would need it.
      if (raw.tables[reference.to].absent && toldOf.has(reference.to)) continue;
      toldOf.add(reference.to);
      reportStray(raw, { ...reference, line, value }, report);
    }
  }
}

/** The keys of each file that is referred to; none for a file whose keys could not be read. */
function knownKeys(raw: RawFolder, rows: Rows): Map<TableName, ReadonlySet<string>> {
  const known = new Map<TableName, ReadonlySet<string>>();
  for (const to of new Set(REFERENCES.map((reference) => reference.to))) {
    const key = TABLES[to].keys[0];
    if (key === undefined || raw.tables[to].lacking.has(key)) continue;
    known.set(to, new Set(rows[to].map(({ cells }) => String((cells as Readonly<Record<string, unknown>>)[key]))));
  }
  return known;
}

function strays(rows: Rows, { from, column }: Reference, known: ReadonlySet<string>): Stray[] {
  return rows[from].flatMap(({ line, cells }) => {
    const value = (cells as Readonly<Record<string, unknown>>)[column];
    return value === undefined || value === null || known.has(String(value)) ? [] : [{ line, value: String(value) }];
  });
}

type Stray = { readonly line: number; readonly value: string };

function reportStray(raw: RawFolder, { from, column, to, line, value }: Reference & Stray, report: Report): void {
  const { file } = TABLES[from];
  const target = TABLES[to].file;
  if (raw.tables[to].absent) {
    const say = `Add this file: ${file} names the ${NOUNS[to]} ${value} in line ${line}.`;
    report({ file: target, line: 1, column: '-' }, refuse('missing', say));
    return;
  }
  const say = `Correct this, or add it to ${target}: there is no ${NOUNS[to]} ${value} there.`;
  report({ file, line, column }, refuse('unknown', say));
}

/** Whether the goods that pay another commission are among the sale's goods. */
function checkOverrides(raw: RawFolder, rows: Rows, { overrides }: SaleBasics, report: Report): void {
  if (raw.tables.goods.lacking.has('goods')) return;
  const known = new Set(rows.goods.map(({ cells }) => cells.goods));
  for (const goods of overrides) {
    if (known.has(goods)) continue;
    const column = `terms.commission_overrides.${goods}`;
    const say = `Correct this, or add it to goods.csv: there is no kind of goods ${goods} there.`;
    report({ file: SALE_FILE, line: saleLine(raw.saleLines, column), column }, refuse('unknown', say));
  }
}

interface Party {
  /** The line of the first partner. */
  readonly line: number;
  readonly sellerNo: number;
  readonly partners: Row<RowOf<'people'>>['cells'][];
}

/** The seller numbers all of whose partners are known. */
function partiesOf({ sellers, people }: Rows): Party[] {
  const byId = new Map(people.map(({ cells }) => [cells.person_id, cells]));
  const parties = new Map<number, Party>();
  const incomplete = new Set<number>();
  for (const { line, cells } of sellers) {
    const { seller_no: sellerNo, person_id } = cells;
    if (sellerNo === undefined) continue;
    const person = person_id === undefined ? undefined : byId.get(person_id);
    const party = parties.get(sellerNo) ?? { line, sellerNo, partners: [] };
    parties.set(sellerNo, party);
    if (person === undefined) incomplete.add(sellerNo);
    else party.partners.push(person);
  }
  return [...parties.values()].filter(({ sellerNo }) => !incomplete.has(sellerNo));
}

function checkMembership(basics: SaleBasics, { line, sellerNo, partners }: Party, report: Report): void {
  const { heldOn, guestsMaySell } = basics;
  if (heldOn === undefined || guestsMaySell === undefined) return;
  const known = partners.flatMap(({ person_id: personId = '', member_until: memberUntil }) =>
    memberUntil === undefined ? [] : [{ personId, memberUntil, parts: 1 }],
  );
  if (known.length < partners.length) return;
  const decided = decideSeller({
    sellerNo,
    takenBy: null,
    membership: membershipOf({ partners: known }, heldOn),
    guestsMaySell,
    names: partners.map(({ name = '' }) => name),
  });
  if (!decided.ok) report({ file: 'sellers.csv', line, column: 'person_id' }, decided);
}

/**
 * The pieces of partners may stand under any of their licences, so those with the same licences are counted together
 * against as many limits. Somebody without a licence counts as one.
 */
function checkSeasonLimits(rows: Rows, parties: readonly Party[], report: Report): void {
  const licences = new Map(parties.map(({ sellerNo, partners }) => [sellerNo, licencesOf(partners)]));
  for (const { cells } of rows.goods) {
    const { goods, season_limit: limit } = cells;
    if (goods === undefined || limit === undefined || limit === null) continue;
    const brought = new Map<string, number>();
    for (const { line, cells: lot } of rows.lots) {
      const own = lot.seller_no === undefined ? undefined : licences.get(lot.seller_no);
      if (lot.goods !== goods || own === undefined || !lot.count) continue;
      const key = own.join('\n');
      const before = brought.get(key) ?? 0;
      brought.set(key, before + lot.count);
      const most = limit * own.length;
      if (before > most || before + lot.count <= most) continue;
      const say = `Check the count and the seller: with this lot ${own.join(' and ')} brought ${before + lot.count} pieces of ${goods}, and a season allows ${most}.`;
      report({ file: 'lots.csv', line, column: 'count' }, refuse('not_allowed', say));
    }
  }
}

function licencesOf(partners: Party['partners']): string[] {
  const all = partners.map(({ person_id, licence_no, licence_region }) =>
    licence_no ? `licence ${[licence_region, licence_no].filter(Boolean).join(' ')}` : `person ${person_id}`,
  );
  return [...new Set(all)].sort();
}

/** A late bid was handed in after every bid that counts: from it on the bids were closed. */
function checkLate(sale: Sale | undefined, { bids }: Rows, report: Report): void {
  const at = ({ received_at = '' }: (typeof bids)[number]['cells']) => Date.parse(received_at);
  const last = Math.max(...bids.filter(({ cells }) => counts(cells)).map(({ cells }) => at(cells) || 0));
  for (const { line, cells } of bids) {
    if (cells.ended !== 'late') continue;
    const say = (sentence: string) =>
      report({ file: 'bids.csv', line, column: 'ended' }, refuse('not_allowed', sentence));
    if (sale?.bidding === 'floor') say('Empty this: only written bids come late, and this sale is called.');
    else if (Number.isNaN(at(cells))) say('Enter in received_at when this late bid was handed in.');
    else if (at(cells) <= last) say('Correct received_at: a bid that counts was handed in at this time or later.');
  }
}

/** A tagged lot that was never put up may lack tags: it comes in on hold, as at the table. */
function checkTagsOfLots(lots: readonly LotWithTags[], rows: Rows, report: Report): void {
  const putUp = new Map<string | undefined, number>();
  for (const { line, cells } of rows.results) {
    if (cells.outcome !== undefined && cells.outcome !== 'withdrawn') putUp.set(cells.lot_no, line);
  }
  for (const lot of lots) {
    const resultLine = putUp.get(lot.lot.cells.lot_no);
    for (const fault of lot.faults) reportFault(lot, fault, resultLine, report);
  }
}

function reportFault(lot: LotWithTags, fault: TagFault, resultLine: number | undefined, report: Report): void {
  const { code, message, tag } = fault;
  if (code !== 'tag_not_taken' && resultLine === undefined) return;
  const refusal = refuse(code === 'tag_not_taken' ? 'malformed' : 'on_hold', message);
  const line = lot.tags.find((row) => row.tag === tag)?.line;
  if (line !== undefined) {
    report({ file: 'tags.csv', line, column: 'tag' }, refusal);
  } else if (code !== 'count_missing' && !lot.tagsInDoubt && resultLine !== undefined) {
    // A missing count is told of the lot's own row.
    report({ file: 'results.csv', line: resultLine, column: 'outcome' }, refusal);
  }
}

/** Where the book knows the same piece from: an earlier sale it went home from, or a later one it came to. */
export interface TagUse {
  readonly cameBackFromId: number | null;
  readonly wentToId: number | null;
}

/**
 * Years may come into the book in any order, so a piece may be there from a year after the folder's. `wentHome` says
 * whether the fur of the folder's lot went home with its seller.
 */
export function tagUse(book: Book, tag: string, heldOn: string, wentHome: boolean): Result<TagUse> {
  const place = placeOfTag(book, tag);
  if (place === undefined) return accept({ cameBackFromId: null, wentToId: null });
  const later = (saleById(book, place.saleId)?.heldOn ?? '') > heldOn;
  const use = decideTagUse({ tag, ...place, sameSale: false, wentHome: later ? wentHome : place.wentHome });
  if (!use.ok) return use;
  return accept({ cameBackFromId: later ? null : place.lotId, wentToId: later ? place.lotId : null });
}
