import { and, eq, getTableColumns, gte, inArray, ne, notInArray, sql } from 'drizzle-orm';
import { z } from 'zod';
import { factsOfRow } from '#lib/field/fields.ts';
import { PERSON_FIELDS, type PersonFacts } from '#lib/person/fields.ts';
import { accept, refuse } from '#lib/result.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { rowId, shapeOf } from '../inputs.ts';
import { duesTakenOn } from '../queries/dues.ts';
import { type PersonRow, personById } from '../queries/find.ts';
import { givenLater } from '../rows.ts';
import { amendPerson } from '../save/person.ts';
import { particulars, sale } from '../schema/index.ts';
import { statement } from '../statement.ts';

const input = z.strictObject({ personId: rowId, ...shapeOf(PERSON_FIELDS) });

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
  run(context, { personId, ...fields }) {
    const before = personById(context.book, personId);
    if (!before) {
      return refuse('unknown', 'This person is not in the book: find them again.', 'personId');
    }
    amendPerson(context, personId, fields);
    amendOpenSales(context, before, fields);
    return accept({ personId });
  },
});

// An import amends everybody who came before, so both are kept.
const atOpenSales = statement(({ db }) => {
  const open = db.select({ id: sale.id }).from(sale).where(ne(sale.stage, 'closed'));
  const theirs = and(eq(particulars.personId, sql.placeholder('personId')), inArray(particulars.saleId, open));
  const { id, saleId, personId, ref, memberUntil, ...rest } = getTableColumns(particulars);
  return db.update(particulars).set(givenLater(rest)).where(theirs).prepare();
});

const atUnsettledSales = statement(({ db }) => {
  const heldFrom = gte(sale.heldOn, sql.placeholder('heldFrom'));
  const unsettled = and(notInArray(sale.stage, ['settling', 'closed']), heldFrom);
  const sales = db.select({ id: sale.id }).from(sale).where(unsettled);
  const theirs = and(eq(particulars.personId, sql.placeholder('personId')), inArray(particulars.saleId, sales));
  return db
    .update(particulars)
    .set(givenLater({ memberUntil: particulars.memberUntil, line: particulars.line }))
    .where(theirs)
    .prepare();
});

function amendOpenSales({ book, line }: CommandContext, before: PersonRow, fields: PersonFacts): void {
  const { memberUntil, ...rest } = factsOfRow(PERSON_FIELDS, fields);
  atOpenSales(book).run({ ...rest, personId: before.id, line });
  // A day that only comes along with another correction is none for the sales held before its dues were taken.
  const heldFrom = memberUntil === before.memberUntil ? duesTakenOn(book, before) : null;
  atUnsettledSales(book).run({ memberUntil, personId: before.id, heldFrom: heldFrom ?? '', line });
}
