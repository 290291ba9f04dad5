/** A person: as they are now, as they stood at a sale, and what is left of them once their contact data is removed. */
import { and, count, eq, getTableColumns, or, sql } from 'drizzle-orm';
import type { CommandContext, Json } from '#db/book/command.ts';
import { particularsByRef, particularsOf, personByRef } from '#db/book/find.ts';
import { canonical, type LogRow } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { bareSum, withoutContact } from '#db/book/redact.ts';
import { addRow, givenLater } from '#db/book/rows.ts';
import { log, particulars, person } from '#db/schema/index.ts';
import { factsOfRow } from '#lib/field/fields.ts';
import { PERSON_FIELDS, type PersonFacts, type RemovedField } from '#lib/person/fields.ts';
import { foldName } from '#lib/result/search.ts';
import type { Person } from '#lib/sale/facts.ts';

/** Adds a person. An empty reference is drawn from how many people the book knows, passing over those in use. */
export function savePerson(context: CommandContext, ref: string, fields: PersonFacts): { id: number; ref: string } {
  const own = ref === '' ? freeRef(context) : ref;
  const facts = factsOfRow(PERSON_FIELDS, fields);
  const nameFolded = foldName(fields.name);
  return { id: addRow(context, person, { ref: own, ...facts, nameFolded, memberLine: context.line }), ref: own };
}

/** What a person shows at a sale; without a `memberLine` it comes from this very entry, as that of a folder does. */
type Shown = Person & { readonly memberLine?: number };

/** Keeps what a person showed at this sale; somebody who is already at it keeps what stands. */
export function saveParticulars(context: CommandContext, at: { saleId: number; personId: number }, own: Shown): void {
  if (particularsOf(context.book, at.saleId, at.personId)) return;
  const ref = freeRefAt(context, at.saleId, own.personId);
  const memberLine = own.memberLine ?? context.line;
  addRow(context, particulars, { ...at, ref, ...factsOfRow(PERSON_FIELDS, own), memberLine });
}

/** A sale read from a folder keeps the folder's references, and one of them may be somebody else's in the book. */
function freeRefAt({ book }: CommandContext, saleId: number, ref: string): string {
  let free = ref;
  for (let number = 2; particularsByRef(book, saleId, free); number += 1) free = `${ref}-${number}`;
  return free;
}

const amended = query(({ db }) => {
  const { id, ref, memberLine, ...rest } = getTableColumns(person);
  const { memberUntil, line } = givenLater({ memberUntil: person.memberUntil, line: person.line });
  const sameDay = sql`${person.memberUntil} IS ${memberUntil}`;
  return db
    .update(person)
    .set({ ...givenLater(rest), memberLine: sql`CASE WHEN ${sameDay} THEN ${memberLine} ELSE ${line} END` })
    .where(equals(person.id, 'id'));
});

/** Changes what the association knows of a person now. */
export function amendPerson({ book, line }: CommandContext, id: number, fields: PersonFacts): void {
  amended(book).run({ ...factsOfRow(PERSON_FIELDS, fields), nameFolded: foldName(fields.name), line, id });
}

const countOfPeople = query(({ db }) => db.select({ n: count() }).from(person));

function freeRef(context: CommandContext): string {
  let number = (countOfPeople(context.book).get()?.n ?? 0) + 1;
  while (personByRef(context.book, refOf(number))) number += 1;
  return refOf(number);
}

function refOf(number: number): string {
  return `P${String(number).padStart(4, '0')}`;
}

/** Empties the fields in the person's row and in their particulars of every sale. */
export function blankRows({ book, line }: CommandContext, personId: number, fields: readonly RemovedField[]): void {
  const blank = { ...Object.fromEntries(fields.map((field) => [field, ''])), line };
  book.db.update(person).set(blank).where(eq(person.id, personId)).run();
  book.db.update(particulars).set(blank).where(eq(particulars.personId, personId)).run();
}

/** Redacts every line that carries the person's contact data; gives their numbers with the sums of their bare forms. */
export function redactLines({ book }: CommandContext, personId: number, fields: readonly RemovedField[]) {
  return linesCarrying(book, personId).map(({ ref, ...row }) => {
    const { seq, input } = row;
    const redacted = canonical(withoutContact(JSON.parse(input) as Json, fields, (own) => own === ref));
    if (redacted !== input) book.db.update(log).set({ input: redacted }).where(eq(log.seq, seq)).run();
    return { line: seq, sum: bareSum({ ...row, input: redacted }) };
  });
}

/** The lines that brought the person's contact data in, in their order; `ref` is their id in a folder that was imported. */
function linesCarrying({ db }: Book, personId: number): (LogRow & { readonly ref: string | null })[] {
  const enrolled = and(eq(log.command, 'person.enrol'), eq(jsonNumber(log.result, 'personId'), personId));
  const amended = and(eq(log.command, 'person.amend'), eq(jsonNumber(log.input, 'personId'), personId));
  const own = db.select().from(log).where(or(enrolled, amended)).all();
  const atSale = and(eq(particulars.saleId, jsonNumber(log.result, 'saleId')), eq(particulars.personId, personId));
  const imported = db
    .select({ ...getTableColumns(log), ref: particulars.ref })
    .from(log)
    .innerJoin(particulars, atSale)
    .where(eq(log.command, 'sale.import'))
    .all();
  return [...own.map((row) => ({ ...row, ref: null })), ...imported].sort((one, other) => one.seq - other.seq);
}

function jsonNumber(column: typeof log.input | typeof log.result, name: string) {
  return sql<number>`json_extract(${column}, ${`$.${name}`})`;
}
