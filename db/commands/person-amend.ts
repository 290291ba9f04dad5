import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand, type Scene } from '../command.ts';
import { rowId } from '../inputs.ts';
import { duesTakenOn } from '../queries/dues.ts';
import { type PersonRow, personById } from '../queries/find.ts';
import { updateRows } from '../rows.ts';
import { amendPerson, columnsOf, type PersonFields } from '../save/person.ts';
import { particulars } from '../schema/index.ts';
import { personFields } from './person-fields.ts';

const input = z.strictObject({ personId: rowId, ...personFields });

/**
 * Puts a person's particulars right, now and in every sale that is not closed; their membership only in sales that are
 * not yet settled either. What was shown there stays: a membership bought this year makes nobody a member last year.
 */
export const personAmend = defineCommand({
  name: 'person.amend',
  summary: "Changes a person's name, address, membership or licence.",
  logLabel: 'Person amended',
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
  const { memberUntil, ...rest } = columnsOf(fields);
  updateRows(book, { table: particulars, row: { ...rest, line } }, { ...IN_OPEN_SALES, cells: [before.id] });
  // A day that only comes along with another correction is none for the sales held before its dues were taken.
  const heldFrom = memberUntil === before.memberUntil ? duesTakenOn(book, before) : null;
  const cells = [before.id, heldFrom ?? ''];
  updateRows(book, { table: particulars, row: { memberUntil, line } }, { ...NOT_YET_SETTLED, cells });
}

const IN_OPEN_SALES = {
  name: 'in open sales',
  where: "person_id = ? AND sale_id IN (SELECT id FROM sale WHERE stage <> 'closed')",
};

const NOT_YET_SETTLED = {
  name: 'in sales not yet settled',
  where:
    "person_id = ? AND sale_id IN (SELECT id FROM sale WHERE stage NOT IN ('settling', 'closed') AND held_on >= ?)",
};
