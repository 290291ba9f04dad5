import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand, type Scene } from '../command.ts';
import { rowId } from '../inputs.ts';
import { personById } from '../queries/find.ts';
import { updateRows } from '../rows.ts';
import { amendPerson, columnsOf, type PersonFields } from '../save/person.ts';
import { particulars } from '../schema/index.ts';
import { personFields } from './person-fields.ts';

const input = z.strictObject({ personId: rowId, ...personFields });

/**
 * Puts a person's particulars right, now and in every sale that is not closed.
 * A closed sale keeps what was shown there: a membership bought this year makes nobody a member last year.
 */
export const personAmend = defineCommand({
  name: 'person.amend',
  summary: "Changes a person's name, address, membership or licence.",
  stations: ['intake', 'till', 'office'],
  input,
  run(scene, { personId, ...fields }) {
    if (!personById(scene.book, personId)) {
      return refuse('unknown', 'This person is not in the book: find them again.', 'personId');
    }
    amendPerson(scene, personId, fields);
    amendOpenSales(scene, personId, fields);
    return accept({ personId });
  },
});

function amendOpenSales(scene: Scene, personId: number, fields: PersonFields): void {
  const row = { ...columnsOf(fields), line: scene.line };
  updateRows(scene.book, { table: particulars, row }, { ...IN_OPEN_SALES, cells: [personId] });
}

const IN_OPEN_SALES = {
  name: 'in open sales',
  where: "person_id = ? AND sale_id IN (SELECT id FROM sale WHERE stage <> 'closed')",
};
