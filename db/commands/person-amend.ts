import { and, eq, gte, inArray, ne, notInArray } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand, type Scene } from '../command.ts';
import { rowId } from '../inputs.ts';
import { duesTakenOn } from '../queries/dues.ts';
import { type PersonRow, personById } from '../queries/find.ts';
import { amendPerson, columnsOf, type PersonFields } from '../save/person.ts';
import { particulars, sale } from '../schema/index.ts';
import { personFields } from './person-fields.ts';

const input = z.strictObject({ personId: rowId, ...personFields });

/**
 * Puts a person's particulars right, now and in every sale that is not closed; their membership only in sales that are
 * not yet settled either. What was shown there stays: a membership bought this year makes nobody a member last year.
 */
export const personAmend = defineCommand({
  name: 'person.amend',
  summary: "Changes a person's name, address, membership or licence.",
  stations: ['intake', 'till', 'office'],
  input,
  run(scene, { personId, ...fields }) {
    const before = personById(scene.book, personId);
    if (!before) {
      return refuse('unknown', 'This person is not in the book: find them again.', 'personId');
    }
    amendPerson(scene, personId, fields);
    amendOpenSales(scene, before, fields);
    return accept({ personId });
  },
});

function amendOpenSales({ book, line }: Scene, before: PersonRow, fields: PersonFields): void {
  const { db } = book;
  const { memberUntil, ...rest } = columnsOf(fields);
  const open = db.select({ id: sale.id }).from(sale).where(ne(sale.stage, 'closed'));
  const theirs = eq(particulars.personId, before.id);
  db.update(particulars)
    .set({ ...rest, line })
    .where(and(theirs, inArray(particulars.saleId, open)))
    .run();
  // A day that only comes along with another correction is none for the sales held before its dues were taken.
  const heldFrom = memberUntil === before.memberUntil ? duesTakenOn(book, before) : null;
  const unsettled = and(notInArray(sale.stage, ['settling', 'closed']), gte(sale.heldOn, heldFrom ?? ''));
  const notYetSettled = db.select({ id: sale.id }).from(sale).where(unsettled);
  db.update(particulars)
    .set({ memberUntil, line })
    .where(and(theirs, inArray(particulars.saleId, notYetSettled)))
    .run();
}
