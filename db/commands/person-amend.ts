import { and, eq, inArray, ne } from 'drizzle-orm';
import { z } from 'zod';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand, type Scene } from '../command.ts';
import { rowId } from '../inputs.ts';
import { personById } from '../queries/find.ts';
import { amendPerson, columnsOf, type PersonFields } from '../save/person.ts';
import { particulars, sale } from '../schema/index.ts';
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
  const { db } = scene.book;
  const open = db.select({ id: sale.id }).from(sale).where(ne(sale.stage, 'closed'));
  const theirs = and(eq(particulars.personId, personId), inArray(particulars.saleId, open));
  db.update(particulars)
    .set({ ...columnsOf(fields), line: scene.line })
    .where(theirs)
    .run();
}
