import { eq, max } from 'drizzle-orm';
import { z } from 'zod';
import { decideJoin, type Joined, type JoinSide } from '#lib/decide-join.ts';
import { cents } from '#lib/money.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { lotNumber, rowId } from '../inputs.ts';
import { lotNoOf } from '../lot-no.ts';
import { bidsOfLot } from '../queries/bids.ts';
import { type LotRow, lotByNumber } from '../queries/find.ts';
import { lotToChange } from '../queries/lot-to-change.ts';
import { newestOutcome } from '../queries/outcome.ts';
import { tagsOfLot } from '../queries/tags.ts';
import { lot, tag } from '../schema/index.ts';
import { holdsNow } from './lot-add.ts';

const input = z.strictObject({ lotId: rowId, other: lotNumber });

/**
 * Joins a lot with another before they are called: the other's pieces, weight and tags come to this lot, which keeps
 * its number and its place, and the other's number is no more. The log keeps what both were.
 */
export const lotJoin = defineCommand({
  name: 'lot.join',
  summary: 'Joins another lot of the same seller and goods to a lot, before they are called.',
  logLabel: 'Joined with another',
  stations: ['intake', 'office'],
  input,
  run(context, { lotId, other }) {
    const stays = lotToChange(context.book, lotId);
    if (!stays.ok) return stays;
    const found = lotByNumber(context.book, stays.value.saleId, other);
    if (!found) return refuse('unknown', `There is no lot ${other} in this sale: check the number.`, 'other');
    const goes = lotToChange(context.book, found.id);
    if (!goes.ok) return { ...goes, field: 'other' };
    const decided = decideFor(context, stays.value, goes.value);
    if (!decided.ok) return decided;
    join(context, { stays: stays.value, goes: goes.value, joined: decided.value });
    return accept({ lotId, lotNo: lotNoOf(stays.value), holds: holdsNow(context, lotId) });
  },
});

function decideFor({ book }: CommandContext, stays: LotRow, goes: LotRow): Result<Joined> {
  const newest = book.db
    .select({ number: max(lot.lotNumber) })
    .from(lot)
    .where(eq(lot.saleId, goes.saleId))
    .get();
  return decideJoin({
    stays: sideOf(stays),
    goes: sideOf(goes),
    bids: [stays, goes].reduce((sum, { id }) => sum + bidsOfLot(book, id).length, 0),
    wasCalled: newestOutcome(book, goes.id) !== undefined,
    newestNumber: newest?.number === goes.lotNumber && stays.lotNumber !== goes.lotNumber,
  });
}

function sideOf(row: LotRow): JoinSide {
  return { ...row, lotNo: lotNoOf(row), minimumCents: row.minimumCents === null ? null : cents(row.minimumCents) };
}

interface Join {
  readonly stays: LotRow;
  readonly goes: LotRow;
  readonly joined: Joined;
}

function join({ book, line }: CommandContext, { stays, goes, joined }: Join): void {
  const first = tagsOfLot(book, stays.id).length;
  for (const [at, { id }] of tagsOfLot(book, goes.id).entries()) {
    book.db
      .update(tag)
      .set({ lotId: stays.id, position: first + at, line })
      .where(eq(tag.id, id))
      .run();
  }
  book.db
    .update(lot)
    .set({ ...joined, line })
    .where(eq(lot.id, stays.id))
    .run();
  book.db.delete(lot).where(eq(lot.id, goes.id)).run();
}
