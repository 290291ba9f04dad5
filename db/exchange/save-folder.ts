/** Writes a folder without problems into the book, as one sale. */

import { and, eq, isNull } from 'drizzle-orm';
import { postRest, saveCharge, savePayment, saveTaking } from '#db/account/post.ts';
import type { CommandContext } from '#db/book/command.ts';
import { addRow, updateRow } from '#db/book/rows.ts';
import { saveLot } from '#db/lot/save.ts';
import { PLAIN, saveOutcome } from '#db/outcome/commands.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { saveSale } from '#db/sale/save.ts';
import { bid, goods as goodsTable, sale as saleTable, tag as tagTable } from '#db/schema/index.ts';
import { emptyFacts, factsOfCells } from '#lib/field/fields.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { PERSON_FIELDS } from '#lib/person/fields.ts';
import type { Sale, Stage } from '#lib/sale/facts.ts';
import { GOODS_FIELDS } from '#lib/sale/goods-fields.ts';
import { parseTag } from '#lib/tag/number.ts';
import { lotsGoneHome } from './against-book.ts';
import { saveBank } from './bank-rows.ts';
import { type AwardedLot, awardsOf, bidOfRow } from './book-rows.ts';
import { type CheckedFolder, type TagUse, tagUse } from './check-folder.ts';
import { type WholeRows, wholeRows } from './read-table.ts';
import { known, knownOrNull, type Parties, saveParties, savePeople } from './save-people.ts';
import { counts } from './tables.ts';

export interface Imported {
  readonly saleId: number;
  readonly name: string;
  readonly stage: Stage;
  readonly lots: number;
  readonly people: number;
  /** Lots of a sealed sale that went to the highest written bid. */
  readonly awarded: number;
  /** Lots that wait for their export tags. */
  readonly onHold: number;
}

export function saveFolder(context: CommandContext, sale: Sale, folder: CheckedFolder): Imported {
  const rows = wholeRows(folder.rows);
  const awards = sale.bidding === 'sealed' ? awardsOfFolder(folder, rows) : new Map<LotNo, AwardedLot>();
  const stage = stageOf(rows, awards.size);
  const saleId = saveSale(context, sale, stage);
  const goods = new Map(
    rows.goods.map((row) => [
      row.goods,
      addRow(context, goodsTable, { saleId, ...emptyFacts(GOODS_FIELDS), ...factsOfCells(GOODS_FIELDS, row) }),
    ]),
  );
  const persons = rows.people.map(({ person_id: personId, ...row }) => ({
    ...{ personId, ...factsOfCells(PERSON_FIELDS, row) },
  }));
  const people = savePeople(context, { saleId, heldOn: sale.heldOn }, persons);
  const parties = saveParties(context, { saleId, people }, rows);
  const takenIn = new Map(folder.lots.map((one) => [one.lot.cells.lot_no ?? '', one.takenIn]));
  const at = { context, sale, saleId, rows, parties };
  const lots = saveLots(at, { goods, takenIn, goneHome: lotsGoneHome(folder.rows) });
  saveBids(at, lots);
  saveOutcomes(at, lots, awards);
  const awarded = awards.size > 0 || rows.results.some(({ outcome }) => outcome !== 'withdrawn');
  // What is still open then waits for its seller or for a no-sale.
  if (sale.bidding === 'sealed' && awarded) updateRow(context, saleTable, saleId, { bidsAwardedAt: context.at });
  saveMoney(at);
  if (stage === 'settling') postRest(context, { saleId, day: sale.heldOn, facts: saleFacts(context.book, saleId) });
  const onHold = folder.lots.filter((lot) => lot.faults.length > 0).length;
  const counts = { lots: rows.lots.length, people: rows.people.length, awarded: awards.size, onHold };
  return { saleId, name: sale.name, stage, ...counts };
}

/** A lot that is on hold was not put up, and one with a result needs no award. */
function awardsOfFolder({ lots }: CheckedFolder, rows: WholeRows): Map<LotNo, AwardedLot> {
  const called = new Set(rows.results.map(({ lot_no }) => lot_no));
  const held = new Set(lots.filter(({ faults }) => faults.length > 0).map(({ lot }) => lot.cells.lot_no));
  const open = rows.lots.filter(({ lot_no }) => !called.has(lot_no) && !held.has(lot_no));
  return awardsOf(
    open.map(({ lot_no: lotNo, minimum: minimumCents }) => ({ lotNo, minimumCents })),
    rows.bids.filter(counts).map(bidOfRow),
  );
}

function stageOf({ lots, results }: WholeRows, awarded: number): Stage {
  const outcomes = results.length + awarded;
  if (outcomes === 0) return 'intake';
  return outcomes === lots.length ? 'settling' : 'selling';
}

/** The folder and where it goes. */
interface Saving {
  readonly context: CommandContext;
  readonly sale: Sale;
  readonly saleId: number;
  readonly rows: WholeRows;
  readonly parties: Parties;
}

/** The book's ids by lot number. */
type LotIds = ReadonlyMap<LotNo, number>;

function saveBids({ context, sale, saleId, rows, parties }: Saving, lots: LotIds): void {
  const kind = sale.bidding === 'sealed' ? 'written' : 'left';
  for (const row of rows.bids) {
    const { lotNo, buyerNo, priceCents, receivedAt } = bidOfRow(row);
    const own = { lotId: known(lots, lotNo), buyerId: known(parties.buyers, buyerNo) };
    const fields = { ...own, kind, priceCents, receivedAt } as const;
    const retractsId = addRow(context, bid, fields);
    if (row.ended === 'retracted') addRow(context, bid, { ...fields, retractsId });
  }
  const late = rows.bids.flatMap(({ ended, received_at }) => (ended === 'late' ? [received_at] : []));
  // The folder has no closing time: no bid that counts was handed in so late (`checkLate`).
  const [bidsCloseAt] = late.sort((a, b) => Date.parse(a) - Date.parse(b));
  if (bidsCloseAt !== undefined) updateRow(context, saleTable, saleId, { bidsCloseAt });
}

function saveOutcomes({ context, rows, parties }: Saving, lots: LotIds, awards: ReadonlyMap<LotNo, AwardedLot>): void {
  for (const { lot_no, outcome: kind, price: priceCents, buyer_no, fate } of rows.results) {
    const buyerId = knownOrNull(parties.buyers, buyer_no);
    saveOutcome(context, known(lots, lot_no), { ...PLAIN, kind, priceCents, buyerId, ...(fate && { fate }) });
  }
  for (const { lotNo, priceCents, buyerNo } of awards.values()) {
    const buyerId = known(parties.buyers, buyerNo);
    saveOutcome(context, known(lots, lotNo), { ...PLAIN, kind: 'sold', priceCents, buyerId, awarded: true });
  }
}

function saveMoney({ context, saleId, rows, parties: { people, sellers, buyers } }: Saving): void {
  for (const { seller_no, kind, amount: amountCents, how, note } of rows.charges) {
    saveCharge(context, { sellerId: known(sellers, seller_no), kind, amountCents, how, note });
  }
  const payments = rows.payments.map(({ direction, method, amount: amountCents, reference, ...row }) => {
    const paymentId = savePayment(context, {
      ...{ saleId, direction, method, amountCents, reference },
      buyerId: knownOrNull(buyers, row.buyer_no),
      sellerId: knownOrNull(sellers, row.seller_no),
      personId: knownOrNull(people, row.person_id),
      paidAt: row.paid_at,
    });
    return { paymentId, amountCents, deposit: row.deposit, on_statement: row.on_statement };
  });
  for (const { kind, method, amount: amountCents, note, taken_at: at } of rows.takings) {
    saveTaking(context, { saleId, kind, method, amountCents, note, at });
  }
  saveBank(context, saleId, { ...rows, payments });
}

/** Saves the lots with their tags. */
function saveLots(
  { context, sale, saleId, rows, parties }: Saving,
  sources: {
    readonly goods: ReadonlyMap<string, number>;
    readonly takenIn: ReadonlyMap<string, string>;
    readonly goneHome: ReadonlySet<string>;
  },
): LotIds {
  const idOf = ({ lot_no: lotNo, seller_no: sellerNo, ...row }: WholeRows['lots'][number]) => {
    const { goods, ...said } = factsOfCells(LOT_FIELDS, row);
    const formerNumbers = row.former_numbers ?? '';
    const place = { saleId, sellerId: known(parties.sellers, sellerNo), lotNo };
    const own = { takenIn: sources.takenIn.get(lotNo) ?? '', goodsId: known(sources.goods, goods) };
    return saveLot(context, place, { ...emptyFacts(LOT_FIELDS), ...said, ...own, formerNumbers });
  };
  const lots = new Map(rows.lots.map((row) => [row.lot_no, idOf(row)]));
  const positions = new Map<LotNo, number>();
  for (const { lot_no, tag } of rows.tags) {
    const position = positions.get(lot_no) ?? 0;
    positions.set(lot_no, position + 1);
    const use = tagUse(context.book, tag, sale.heldOn, sources.goneHome.has(lot_no));
    if (!use.ok) throw new RangeError(use.message);
    saveTag(context, { lotId: known(lots, lot_no), position, tag }, use.value);
  }
  return lots;
}

/** A tag lives on the newest lot it is on: an older row gives way to this one, or this one to a later row. */
function saveTag(
  context: CommandContext,
  at: { lotId: number; position: number; tag: string },
  { cameBackFromId, wentToId }: TagUse,
): void {
  const { line } = context;
  const { db } = context.book;
  const same = eq(tagTable.tag, at.tag);
  if (cameBackFromId !== null) {
    const older = and(same, eq(tagTable.lotId, cameBackFromId));
    db.update(tagTable).set({ live: false, line }).where(older).run();
  }
  if (wentToId !== null) {
    const later = and(same, eq(tagTable.lotId, wentToId), isNull(tagTable.cameBackFromId));
    db.update(tagTable).set({ cameBackFromId: at.lotId, line }).where(later).run();
  }
  const parsed = parseTag(at.tag);
  const condition = parsed.ok && parsed.value.replacement ? 'replacement' : 'intact';
  addRow(context, tagTable, { ...at, condition, live: wentToId === null, cameBackFromId });
}
