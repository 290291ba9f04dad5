import { and, eq } from 'drizzle-orm';
import * as z from 'zod';
import { type CommandContext, defineCommand } from '#db/book/command.ts';
import { goodsById, type LotRow, lotByNumber, lotNoOf, saleById, sellerByNumber } from '#db/book/find.ts';
import { lotNumber, partyNumber, piecesOrNull, rowId, weightOrNull } from '#db/book/inputs.ts';
import { updateRow } from '#db/book/rows.ts';
import { bidsOfLot } from '#db/outcome/bids.ts';
import { newestOutcomeOf } from '#db/outcome/queries.ts';
import { licencesGood } from '#db/person/may-bring.ts';
import { lot, tag } from '#db/schema/index.ts';
import { tagsOfLot } from '#db/tag/queries.ts';
import { factsOfRow } from '#lib/field/fields.ts';
import {
  decideDivide,
  decideJoin,
  type Joined,
  type JoinSide,
  type LotPart,
  minimaOfParts,
  numbersOfParts,
} from '#lib/lot/divide-and-join.ts';
import { fieldsWith, type LotParted } from '#lib/lot/fields.ts';
import { addFormer } from '#lib/lot/former.ts';
import { type LotNo, splitLotNo } from '#lib/lot/number.ts';
import { standingBids } from '#lib/outcome/bid.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { holdsNow } from './commands.ts';
import { decideSeason } from './fields.ts';
import { formerNumbers, noLot } from './former.ts';
import { lotToChange } from './open-lots.ts';
import { saveLot, savePlace } from './save.ts';

const part = z
  .strictObject({ count: piecesOrNull.default(null), weight: weightOrNull.default(null) })
  .transform(({ count, weight }): LotPart => ({ count, weightThousandths: weight }));

/**
 * Divides a lot before it is called. The tags go to the parts in the order in which they were entered, as many to each
 * as it has pieces; what is left over goes with the last.
 */
export const lotDivide = defineCommand({
  name: 'lot.divide',
  summary: 'Divides a lot into parts with letters behind its number, before it is called.',
  logLabel: 'Divided',
  stations: ['intake', 'block', 'office'],
  input: z.strictObject({
    lotId: rowId,
    parts: z.array(part).max(26, { error: 'Enter at most 26 parts.' }),
  }),
  run(context, { lotId, parts }) {
    const row = lotToChange(context.book, lotId);
    if (!row.ok) return row;
    const own = lotNoOf(row.value);
    const bids = standingBids(bidsOfLot(context.book, lotId)).length;
    const decided = decideDivide({ ...row.value, lotNo: own, bids }, parts);
    if (!decided.ok) return decided;
    const numbers = numbersOfParts(own, parts.length, numbersLike(context, row.value));
    if (!numbers.ok) return numbers;
    return divide(context, row.value, parts, numbers.value);
  },
});

function numbersLike({ book }: CommandContext, { saleId, lotNumber }: LotRow): LotNo[] {
  const same = and(eq(lot.saleId, saleId), eq(lot.lotNumber, lotNumber));
  return [...book.db.select().from(lot).where(same).all().map(lotNoOf), ...formerNumbers(book, saleId)];
}

function divide(
  context: CommandContext,
  whole: LotRow,
  parts: readonly LotPart[],
  numbers: readonly LotNo[],
): Result<{ lots: { lotId: number; lotNo: LotNo; holds: string[] }[] }> {
  const minima = minimaOfParts(whole.minimumCents, whole.by, parts);
  const tags = tagsOfLot(context.book, whole.id);
  const former = addFormer([whole.formerNumbers], { lotNo: lotNoOf(whole), how: 'divided' });
  const lots = parts.flatMap((own, at) => {
    const lotNo = numbers[at];
    if (lotNo === undefined) return [];
    const fields = { lotNo, ...own, minimumCents: minima[at] ?? null, formerNumbers: former };
    return [{ lotNo, lotId: at === 0 ? becomes(context, whole, fields) : splitOff(context, whole, fields) }];
  });
  let next = 0;
  for (const [at, { lotId }] of lots.entries()) {
    const take = at === lots.length - 1 ? tags.length : (parts[at]?.count ?? 0);
    for (const [position, { id }] of tags.slice(next, next + take).entries()) {
      updateRow(context, tag, id, { lotId, position });
    }
    next += take;
  }
  return accept({ lots: lots.map((one) => ({ ...one, holds: holdsNow(context, one.lotId) })) });
}

type PartFields = LotParted & { readonly lotNo: LotNo; readonly formerNumbers: string };

/** The lot itself goes on as the first part. */
function becomes(context: CommandContext, whole: LotRow, { lotNo, ...fields }: PartFields): number {
  const { letter: lotLetter } = splitLotNo(lotNo);
  updateRow(context, lot, whole.id, { ...fields, lotLetter });
  return whole.id;
}

const { goods: _code, ...COPIED } = fieldsWith('divide', 'copied');

function splitOff(context: CommandContext, whole: LotRow, { lotNo, ...parted }: PartFields): number {
  const fields = { ...factsOfRow(COPIED, whole), goodsId: whole.goodsId, ...parted };
  const lotId = saveLot(context, { ...whole, lotNo }, fields);
  if (whole.place !== null) savePlace(context, lotId, whole.place);
  return lotId;
}

/**
 * Joins a lot with another before they are called: the other's pieces, weight and tags come to this lot, which keeps
 * its number and its place, and the other's number is no more. The log keeps what both were.
 */
export const lotJoin = defineCommand({
  name: 'lot.join',
  summary: 'Joins another lot of the same seller and goods to a lot, before they are called.',
  logLabel: 'Joined with another',
  stations: ['intake', 'office'],
  input: z.strictObject({ lotId: rowId, other: lotNumber }),
  run(context, { lotId, other }) {
    const stays = lotToChange(context.book, lotId);
    if (!stays.ok) return stays;
    const found = lotByNumber(context.book, stays.value.saleId, other);
    if (!found) return noLot(context.book, stays.value.saleId, other, 'other');
    const goes = lotToChange(context.book, found.id);
    if (!goes.ok) return { ...goes, field: 'other' };
    const decided = decideFor(context, stays.value, goes.value);
    if (!decided.ok) return decided;
    join(context, stays.value, goes.value, decided.value);
    return accept({ lotId, lotNo: lotNoOf(stays.value), holds: holdsNow(context, lotId) });
  },
});

function decideFor({ book }: CommandContext, stays: LotRow, goes: LotRow): Result<Joined> {
  return decideJoin({
    stays: sideOf(stays),
    goes: sideOf(goes),
    bids: [stays, goes].reduce((sum, { id }) => sum + bidsOfLot(book, id).length, 0),
    wasCalled: newestOutcomeOf(book, goes.id) !== undefined,
  });
}

function sideOf(row: LotRow): JoinSide {
  return { ...row, lotNo: lotNoOf(row) };
}

function join({ book, line }: CommandContext, stays: LotRow, goes: LotRow, joined: Joined): void {
  const first = tagsOfLot(book, stays.id).length;
  for (const [at, { id }] of tagsOfLot(book, goes.id).entries()) {
    updateRow({ book, line }, tag, id, { lotId: stays.id, position: first + at });
  }
  const own = { lotNo: lotNoOf(goes), how: 'joined' } as const;
  const formerNumbers = addFormer([stays.formerNumbers, goes.formerNumbers], own);
  updateRow({ book, line }, lot, stays.id, { ...joined, formerNumbers });
  book.db.delete(lot).where(eq(lot.id, goes.id)).run();
}

/** Puts a lot under another seller number before it is called; it keeps its own number and its tags. */
export const lotMove = defineCommand({
  name: 'lot.move',
  summary: 'Moves a lot to another seller number before it is called.',
  logLabel: 'Moved to another seller number',
  stations: ['intake', 'office'],
  input: z.strictObject({ lotId: rowId, sellerNo: partyNumber }),
  run(context, { lotId, sellerNo }) {
    const row = lotToChange(context.book, lotId);
    if (!row.ok) return row;
    const seller = sellerByNumber(context.book, row.value.saleId, sellerNo);
    if (!seller) {
      const message = `There is no seller number ${sellerNo}: check the card, or give the number first.`;
      return refuse('unknown', message, 'sellerNo');
    }
    if (seller.id === row.value.sellerId) {
      const message = `Lot ${lotNoOf(row.value)} is already seller ${sellerNo}'s: enter another number.`;
      return refuse('already', message, 'sellerNo');
    }
    const sale = saleById(context.book, row.value.saleId);
    const licensed = sale ? licencesGood(context.book, sale, seller.id) : accept(null);
    if (!licensed.ok) return licensed;
    const goods = goodsById(context.book, row.value.goodsId);
    const at = { saleId: row.value.saleId, sellerId: seller.id, lotId };
    const within = goods ? decideSeason(context.book, at, { goods, count: row.value.count }) : accept(null);
    if (!within.ok) return { ...within, field: 'sellerNo' };
    updateRow(context, lot, lotId, { sellerId: seller.id });
    return accept({ lotId, sellerNo });
  },
});
