import { and, eq, ne } from 'drizzle-orm';
import * as z from 'zod';
import { type CommandContext, defineCommand } from '#db/book/command.ts';
import { lotById, lotByNumber, nextNumber } from '#db/book/find.ts';
import { partyNumber, readByOrNull, rowId } from '#db/book/inputs.ts';
import { updateRow } from '#db/book/rows.ts';
import { mayBring } from '#db/person/may-bring.ts';
import { lot } from '#db/schema/index.ts';
import { holdsOfLotId } from '#db/tag/queries.ts';
import { type LotNo, lotNo, parseLotNo, splitLotNo } from '#lib/lot/number.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { checkLot, lotFields, tagList } from './fields.ts';
import { formerNumbers, goneLot } from './former.ts';
import { lotToChange } from './open-lots.ts';
import { replaceTags, saveLot, saveTags } from './save.ts';

/**
 * Checks a lot in: it gets its number at once, and where an export tag is missing or wrong it is on hold.
 * The answer says what holds it.
 */
export const lotAdd = defineCommand({
  name: 'lot.add',
  summary: 'Checks a lot in under a seller number, with its export tags.',
  logLabel: 'Checked in',
  stations: ['intake', 'office'],
  input: z.strictObject({
    saleId: rowId,
    sellerNo: partyNumber,
    /** An empty number takes the next free one. */
    lotNo: readByOrNull(parseLotNo).default(null),
    ...lotFields,
    tags: tagList.default([]),
  }),
  run(context, { saleId, sellerNo, lotNo: typedNo, ...said }) {
    const bringing = mayBring(context.book, saleId, sellerNo);
    if (!bringing.ok) return bringing;
    const { seller } = bringing.value;
    const number = freeNumber(context, saleId, typedNo);
    if (!number.ok) return number;
    const checked = checkLot(context.book, { saleId, sellerId: seller.id, lotId: null }, said);
    if (!checked.ok) return checked;
    const lotId = saveLot(context, { saleId, sellerId: seller.id, lotNo: number.value }, checked.value.fields);
    saveTags(context, lotId, checked.value.tags);
    return accept({ lotId, lotNo: number.value, holds: holdsNow(context, lotId) });
  },
});

const nextLotNumber = nextNumber(lot, lot.lotNumber);

export function freeNumber(context: CommandContext, saleId: number, typed: LotNo | null): Result<LotNo> {
  const former = formerNumbers(context.book, saleId);
  if (typed === null) {
    // A number that was joined away is not given again, even where it was the newest.
    const highest = Math.max(0, ...former.map((one) => splitLotNo(one).number));
    return accept(lotNo(String(Math.max(nextLotNumber(context.book, saleId), highest + 1))));
  }
  const gone = goneLot(context.book, saleId, typed);
  if (gone) {
    const message = `${gone.message} Its number is not given again: leave the number empty to take the next free one.`;
    return refuse('taken', message, 'lotNo');
  }
  if (wasDivided(context, saleId, typed)) {
    return refuse(
      'taken',
      `Lot ${typed} was divided, and its number stays with the parts: leave the number empty to take the next free one.`,
      'lotNo',
    );
  }
  if (!lotByNumber(context.book, saleId, typed)) return accept(typed);
  return refuse('taken', `There is already a lot ${typed}: leave the number empty to take the next free one.`, 'lotNo');
}

/** A lot without a letter whose parts bear one: tickets of the whole may still lie about. */
function wasDivided({ book }: CommandContext, saleId: number, typed: LotNo): boolean {
  const { number, letter } = splitLotNo(typed);
  if (letter !== '') return false;
  const parts = and(eq(lot.saleId, saleId), eq(lot.lotNumber, number), ne(lot.lotLetter, ''));
  return book.db.select({ id: lot.id }).from(lot).where(parts).limit(1).get() !== undefined;
}

/** The sentences that say what holds a lot back; none when it may be put up. */
export function holdsNow(context: CommandContext, lotId: number): string[] {
  const row = lotById(context.book, lotId);
  return row ? holdsOfLotId(context.book, row).map(({ message }) => message) : [];
}

export const lotAmend = defineCommand({
  name: 'lot.amend',
  summary: 'Changes a lot and its export tags before it is called.',
  logLabel: 'Amended',
  stations: ['intake', 'office'],
  input: z.strictObject({ lotId: rowId, ...lotFields, tags: tagList }),
  run(context, { lotId, ...said }) {
    const row = lotToChange(context.book, lotId);
    if (!row.ok) return row;
    const checked = checkLot(context.book, { saleId: row.value.saleId, sellerId: row.value.sellerId, lotId }, said);
    if (!checked.ok) return checked;
    updateRow(context, lot, lotId, checked.value.fields);
    replaceTags(context, lotId, checked.value.tags);
    return accept({ lotId, holds: holdsNow(context, lotId) });
  },
});
