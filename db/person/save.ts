/** A person: as they are now, as they stood at a sale, and what is left of them once their contact data is removed. */
import { and, count, eq, getTableColumns, or, sql } from 'drizzle-orm';
import type { CommandContext, Json } from '#db/book/command.ts';
import { particularsOf, personByRef } from '#db/book/find.ts';
import { canonical, type LogRow } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { bareSum, withoutContact } from '#db/book/redact.ts';
import { givenLater, insertRow } from '#db/book/rows.ts';
import { log, particulars, person } from '#db/schema/index.ts';
import { factsOfRow } from '#lib/field/fields.ts';
import { type ContactField, PERSON_FIELDS, type PersonFacts } from '#lib/person/fields.ts';
import { foldName } from '#lib/result/search.ts';
import type { Person } from '#lib/sale/facts.ts';

/** Adds a person. An empty reference is drawn from how many people the book knows, passing over those in use. */
export function savePerson(context: CommandContext, ref: string, fields: PersonFacts): { id: number; ref: string } {
  const own = ref === '' ? freeRef(context) : ref;
  const id = insertRow(context.book, person, {
    ref: own,
    ...factsOfRow(PERSON_FIELDS, fields),
    nameFolded: foldName(fields.name),
    ...{ memberLine: context.line, line: context.line },
  });
  return { id, ref: own };
}

/** What a person shows at a sale; without a `memberLine` it comes from this very entry, as that of a folder does. */
type Shown = Person & { readonly memberLine?: number };

/** Keeps what a person showed at this sale; somebody who is already at it keeps what stands. */
export function saveParticulars(context: CommandContext, at: { saleId: number; personId: number }, own: Shown): void {
  if (particularsOf(context.book, at.saleId, at.personId)) return;
  const ref = freeRefAt(context, at.saleId, own.personId);
  const { line } = context;
  const memberLine = own.memberLine ?? line;
  insertRow(context.book, particulars, { ...at, ref, ...factsOfRow(PERSON_FIELDS, own), memberLine, line });
}

const particularsByRef = query(({ db }) => {
  const theirs = and(equals(particulars.saleId, 'saleId'), equals(particulars.ref, 'ref'));
  return db.select({ id: particulars.id }).from(particulars).where(theirs);
});

/** A sale read from a folder keeps the folder's references, and one of them may be somebody else's in the book. */
function freeRefAt({ book }: CommandContext, saleId: number, ref: string): string {
  const find = particularsByRef(book);
  let free = ref;
  for (let number = 2; find.get({ saleId, ref: free }); number += 1) free = `${ref}-${number}`;
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

export interface RedactedLine {
  readonly line: number;
  /** SHA-256 in hex of the line's bare form. */
  readonly sum: string;
}

/** Empties the fields in the person's row and in their particulars of every sale. */
export function blankRows({ book, line }: CommandContext, personId: number, fields: readonly ContactField[]): void {
  const blank = { ...Object.fromEntries(fields.map((field) => [field, ''])), line };
  book.db.update(person).set(blank).where(eq(person.id, personId)).run();
  book.db.update(particulars).set(blank).where(eq(particulars.personId, personId)).run();
}

interface Carrying extends LogRow {
  /** The person's id in the folder, for a line that imported a sale. */
  readonly ref: string | null;
}

/** Redacts every line that carries the person's contact data; gives their numbers with what is sealed of them. */
export function redactLines(
  { book }: CommandContext,
  personId: number,
  fields: readonly ContactField[],
): RedactedLine[] {
  return linesCarrying(book, personId).map(({ ref, ...row }) => {
    const { seq, input } = row;
    const redacted = canonical(withoutContact(JSON.parse(input) as Json, fields, (own) => own === ref));
    if (redacted !== input) book.db.update(log).set({ input: redacted }).where(eq(log.seq, seq)).run();
    return { line: seq, sum: bareSum({ ...row, input: redacted }) };
  });
}

/** The lines that brought the person's contact data in, in their order. */
function linesCarrying({ db }: Book, personId: number): Carrying[] {
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
