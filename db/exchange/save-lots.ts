/** Writes the lots of a folder with their tags. */
import { and, eq, isNull } from 'drizzle-orm';
import { emptyFacts, factsOfCells } from '#lib/field/fields.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { parseTag } from '#lib/tag.ts';
import type { CommandContext } from '../command.ts';
import { insertRow } from '../rows.ts';
import { saveLot } from '../save/lot.ts';
import { tag as tagTable } from '../schema/index.ts';
import type { WholeRows } from './rows.ts';
import { known } from './save-parties.ts';
import { type TagUse, tagUse } from './tag-use.ts';

export interface LotsAt {
  readonly saleId: number;
  readonly heldOn: string;
  readonly sellers: ReadonlyMap<number, number>;
  readonly goods: ReadonlyMap<string, number>;
  readonly takenIn: ReadonlyMap<string, string>;
  readonly goneHome: ReadonlySet<string>;
}

/** Gives the book's ids by lot number. */
export function saveLots(context: CommandContext, at: LotsAt, rows: WholeRows): Map<LotNo, number> {
  const lots = new Map(rows.lots.map((row) => [row.lot_no, saveLotRow(context, at, row)]));
  const positions = new Map<LotNo, number>();
  for (const { lot_no, tag } of rows.tags) {
    const position = positions.get(lot_no) ?? 0;
    positions.set(lot_no, position + 1);
    const use = tagUse(context.book, { tag, heldOn: at.heldOn, wentHome: at.goneHome.has(lot_no) });
    if (!use.ok) throw new RangeError(use.message);
    saveTag(context, { lotId: known(lots, lot_no), position, tag }, use.value);
  }
  return lots;
}

function saveLotRow(
  context: CommandContext,
  at: LotsAt,
  { lot_no: lotNo, seller_no: sellerNo, ...row }: WholeRows['lots'][number],
) {
  const { goods, ...said } = factsOfCells(LOT_FIELDS, row);
  const place = { saleId: at.saleId, sellerId: known(at.sellers, sellerNo), lotNo };
  const takenIn = at.takenIn.get(lotNo) ?? '';
  return saveLot(context, place, { ...emptyFacts(LOT_FIELDS), ...said, takenIn, goodsId: known(at.goods, goods) });
}

interface TagAt {
  readonly lotId: number;
  readonly position: number;
  readonly tag: string;
}

/** A tag lives on the newest lot it is on: an older row gives way to this one, or this one to a later row. */
function saveTag({ book, line }: CommandContext, at: TagAt, { cameBackFromId, wentToId }: TagUse): void {
  const { db } = book;
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
  insertRow(book, tagTable, { ...at, condition, live: wentToId === null, cameBackFromId, line });
}
