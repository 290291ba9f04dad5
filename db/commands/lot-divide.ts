import { and, eq } from 'drizzle-orm';
import { z } from 'zod';
import { decideDivide, type LotPart, minimaOfParts, numbersOfParts } from '#lib/decide-divide.ts';
import { standingBids } from '#lib/decide-retract.ts';
import { factsOfRow } from '#lib/field/fields.ts';
import { fieldsWith, type LotParted } from '#lib/lot/fields.ts';
import { type LotNo, splitLotNo } from '#lib/lot-number.ts';
import { cents } from '#lib/money.ts';
import { accept, type Result } from '#lib/result.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { piecesOrNull, rowId, weightOrNull } from '../inputs.ts';
import { lotNoOf } from '../lot-no.ts';
import { bidsOfLot } from '../queries/bids.ts';
import type { LotRow } from '../queries/find.ts';
import { lotToChange } from '../queries/lot-to-change.ts';
import { tagsOfLot } from '../queries/tags.ts';
import { saveLot, savePlace } from '../save/lot.ts';
import { lot, tag } from '../schema/index.ts';
import { holdsNow } from './lot-add.ts';

const part = z
  .strictObject({ count: piecesOrNull.default(null), weight: weightOrNull.default(null) })
  .transform(({ count, weight }): LotPart => ({ count, weightThousandths: weight }));

const input = z.strictObject({ lotId: rowId, parts: z.array(part).max(26, { error: 'Enter at most 26 parts.' }) });

/**
 * Divides a lot before it is called. The tags go to the parts in the order in which they were entered, as many to each
 * as it has pieces; what is left over goes with the last.
 */
export const lotDivide = defineCommand({
  name: 'lot.divide',
  summary: 'Divides a lot into parts with letters behind its number, before it is called.',
  logLabel: 'Divided',
  stations: ['intake', 'block', 'office'],
  input,
  run(context, { lotId, parts }) {
    const row = lotToChange(context.book, lotId);
    if (!row.ok) return row;
    const own = lotNoOf(row.value);
    const bids = standingBids(bidsOfLot(context.book, lotId)).length;
    const decided = decideDivide({ ...row.value, lotNo: own, bids }, parts);
    if (!decided.ok) return decided;
    const numbers = numbersOfParts(own, parts.length, numbersLike(context, row.value));
    if (!numbers.ok) return numbers;
    return divide(context, row.value, { parts, numbers: numbers.value });
  },
});

function numbersLike({ book }: CommandContext, { saleId, lotNumber }: LotRow): LotNo[] {
  const same = and(eq(lot.saleId, saleId), eq(lot.lotNumber, lotNumber));
  return book.db.select().from(lot).where(same).all().map(lotNoOf);
}

interface Parts {
  readonly parts: readonly LotPart[];
  readonly numbers: readonly LotNo[];
}

function divide(
  context: CommandContext,
  whole: LotRow,
  { parts, numbers }: Parts,
): Result<{ lots: { lotId: number; lotNo: LotNo; holds: string[] }[] }> {
  const minimum = whole.minimumCents === null ? null : cents(whole.minimumCents);
  const minima = minimaOfParts(minimum, whole.by, parts);
  const tags = tagsOfLot(context.book, whole.id);
  const lots = parts.flatMap((own, at) => {
    const lotNo = numbers[at];
    if (lotNo === undefined) return [];
    const fields = { ...own, minimumCents: minima[at] ?? null };
    return [
      {
        lotNo,
        lotId:
          at === 0 ? becomes(context, whole, { lotNo, ...fields }) : splitOff(context, whole, { lotNo, ...fields }),
      },
    ];
  });
  let next = 0;
  for (const [at, { lotId }] of lots.entries()) {
    const take = at === lots.length - 1 ? tags.length : (parts[at]?.count ?? 0);
    for (const [position, { id }] of tags.slice(next, next + take).entries()) {
      context.book.db.update(tag).set({ lotId, position, line: context.line }).where(eq(tag.id, id)).run();
    }
    next += take;
  }
  return accept({ lots: lots.map((one) => ({ ...one, holds: holdsNow(context, one.lotId) })) });
}

interface PartFields extends LotParted {
  readonly lotNo: LotNo;
}

/** The lot itself goes on as the first part. */
function becomes(context: CommandContext, whole: LotRow, { lotNo, ...fields }: PartFields): number {
  const { letter: lotLetter } = splitLotNo(lotNo);
  context.book.db
    .update(lot)
    .set({ ...fields, lotLetter, line: context.line })
    .where(eq(lot.id, whole.id))
    .run();
  return whole.id;
}

const { goods: _code, ...COPIED } = fieldsWith('divide', 'copied');

function splitOff(context: CommandContext, whole: LotRow, { lotNo, ...parted }: PartFields): number {
  const fields = { ...factsOfRow(COPIED, whole), goodsId: whole.goodsId, ...parted };
  const lotId = saveLot(context, { ...whole, lotNo }, fields);
  if (whole.place !== null) savePlace(context, lotId, whole.place);
  return lotId;
}
