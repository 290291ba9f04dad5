import { and, eq, getTableColumns, gte, inArray, ne, notInArray, sql } from 'drizzle-orm';
import * as z from 'zod';
import { type CommandContext, defineCommand } from '#db/book/command.ts';
import { type PersonRow, personById, personByRef } from '#db/book/find.ts';
import { rowId, shapeOf, someReason, text } from '#db/book/inputs.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { givenLater } from '#db/book/rows.ts';
import { particulars, partner, person, sale, settlement } from '#db/schema/index.ts';
import { decideNotWalkIn } from '#lib/buyer/walk-in.ts';
import { factsOfRow } from '#lib/field/fields.ts';
import { PERSON_FIELDS, type PersonFacts } from '#lib/person/fields.ts';
import { decideForget } from '#lib/person/person.ts';
import { accept, refuse } from '#lib/result/result.ts';
import { duesTakenOn } from './dues-queries.ts';
import { amendPerson, blankRows, redactLines, savePerson } from './save.ts';

/** Adds a person to the association's people; the reference is drawn where none is given. */
export const personEnrol = defineCommand({
  name: 'person.enrol',
  summary: 'Adds a person: a member, a guest or a buyer.',
  logLabel: 'Person enrolled',
  stations: ['intake', 'till', 'office'],
  input: z.strictObject({ ref: text, ...shapeOf(PERSON_FIELDS) }),
  run(context, { ref, ...fields }) {
    const own = decideNotWalkIn(ref, 'ref');
    if (!own.ok) return own;
    if (ref !== '' && personByRef(context.book, ref)) {
      const message = `The reference ${ref} belongs to somebody else: leave it empty to draw a free one.`;
      return refuse('taken', message, 'ref');
    }
    const saved = savePerson(context, ref, fields);
    return accept({ personId: saved.id, ref: saved.ref });
  },
});

/**
 * Puts a person's particulars right, now and in every sale that is not closed; their membership only in sales that are
 * not yet settled either. What was shown there stays: a membership bought this year makes nobody a member last year.
 */
export const personAmend = defineCommand({
  name: 'person.amend',
  summary: "Changes a person's name, address, membership or licence.",
  logLabel: 'Person amended',
  stations: ['intake', 'till', 'office'],
  input: z.strictObject({ personId: rowId, ...shapeOf(PERSON_FIELDS) }),
  run(context, { personId, ...fields }) {
    const before = personById(context.book, personId);
    if (!before) {
      return refuse('unknown', 'This person is not in the book: find them again.', 'personId');
    }
    const own = decideNotWalkIn(before.ref, 'personId');
    if (!own.ok) return own;
    amendPerson(context, personId, fields);
    amendOpenSales(context, before, fields);
    return accept({ personId });
  },
});

// An import amends everybody who came before, so both are kept.
const atOpenSales = query(({ db }) => {
  const open = db.select({ id: sale.id }).from(sale).where(ne(sale.stage, 'closed'));
  const theirs = and(equals(particulars.personId, 'personId'), inArray(particulars.saleId, open));
  const { id, saleId, personId, ref, memberUntil, memberLine, ...rest } = getTableColumns(particulars);
  return db.update(particulars).set(givenLater(rest)).where(theirs);
});

const atUnsettledSales = query(({ db }) => {
  const heldFrom = gte(sale.heldOn, sql.placeholder('heldFrom'));
  const unsettled = and(notInArray(sale.stage, ['settling', 'closed']), heldFrom);
  const sales = db.select({ id: sale.id }).from(sale).where(unsettled);
  const theirs = and(equals(particulars.personId, 'personId'), inArray(particulars.saleId, sales));
  const memberLine = sql`(SELECT ${person.memberLine} FROM ${person} WHERE ${person.id} = ${sql.placeholder('personId')})`;
  return db
    .update(particulars)
    .set({ ...givenLater({ memberUntil: particulars.memberUntil, line: particulars.line }), memberLine })
    .where(theirs);
});

function amendOpenSales({ book, line }: CommandContext, before: PersonRow, fields: PersonFacts): void {
  const { memberUntil, ...rest } = factsOfRow(PERSON_FIELDS, fields);
  atOpenSales(book).run({ ...rest, personId: before.id, line });
  // A day that only comes along with another correction is none for the sales held before its dues were taken.
  const heldFrom = memberUntil === before.memberUntil ? duesTakenOn(book, before) : null;
  atUnsettledSales(book).run({ memberUntil, personId: before.id, heldFrom: heldFrom ?? '', line });
}

/** Removes where a person is reached, once no money or law asks for it; who sold and bought what stays. */
export const personForget = defineCommand({
  name: 'person.forget',
  summary: "Removes a person's contact data from the book and its log, once all their sales are closed.",
  logLabel: 'Contact data removed',
  stations: ['office'],
  input: z.strictObject({ personId: rowId, reason: someReason }),
  run(context, { personId }) {
    if (!personById(context.book, personId)) {
      return refuse('unknown', 'This person is not in the book: find them again.', 'personId');
    }
    const decided = decideForget(salesOf(context.book, personId), sheetsOf(context.book, personId));
    if (!decided.ok) return decided;
    blankRows(context, personId, decided.value);
    const lines = redactLines(context, personId, decided.value);
    return accept({ personId, removed: [...decided.value], lines });
  },
});

function salesOf({ db }: Book, personId: number) {
  return db
    .select({ name: sale.name, stage: sale.stage })
    .from(particulars)
    .innerJoin(sale, eq(sale.id, particulars.saleId))
    .where(eq(particulars.personId, personId))
    .all();
}

function sheetsOf({ db }: Book, personId: number): number {
  const found = db
    .select({ n: sql<number>`count(*)` })
    .from(settlement)
    .innerJoin(partner, eq(partner.sellerId, settlement.sellerId))
    .where(eq(partner.personId, personId))
    .get();
  return found?.n ?? 0;
}
