/** Finding a person by any part of the name, the member number, the phone or the licence, over the whole book. */
import { and, eq, ne, type SQL, sql } from 'drizzle-orm';
import type { PersonRow, SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { partner, person, seller } from '#db/schema/index.ts';
import { logPart } from '#db/worker/log-view.ts';
import { WALK_IN_REF } from '#lib/buyer/walk-in.ts';
import { typedOf } from '#lib/field/fields.ts';
import { PERSON_FIELDS, type PersonAsTyped } from '#lib/person/fields.ts';
import {
  type LicenceState,
  licenceInWords,
  type MembershipState,
  membershipInWords,
  type Standing,
} from '#lib/person/person.ts';
import { foldName } from '#lib/result/search.ts';

/** More words than this are a slip of the keyboard; the first ones already tell people apart. */
const MOST_WORDS = 5;

export interface FoundPerson extends Pick<PersonRow, 'name' | 'phone'> {
  readonly personId: number;
  /** Where they live, as far as it is known: it tells two people of one name apart. */
  readonly place: string;
  readonly membership: Standing<MembershipState>;
  readonly licence: Standing<LicenceState>;
  /** The seller numbers that they already have at this sale. */
  readonly sellerNos: readonly number[];
  /** What the book knows of the person, as it would be typed again. */
  readonly typed: PersonAsTyped;
}

/** One statement for each number of words. */
const findByWords = Array.from({ length: MOST_WORDS }, (_, before) =>
  query(({ db }) => {
    const words = before + 1;
    const fits = Array.from({ length: words }, (_, at) => fitsWord(at));
    const first = sql.placeholder('w0');
    return (
      db
        .select()
        .from(person)
        // Who walks in is nobody in particular: a number is given to them at the Till, and nothing else.
        .where(and(ne(person.ref, WALK_IN_REF), ...fits))
        .orderBy(
          sql`lower(${person.memberNo}) = ${first} DESC`,
          sql`instr(${person.nameFolded}, ${first}) = 1 DESC`,
          sql`instr(' ' || ${person.nameFolded}, ' ' || ${first}) > 0 DESC`,
          person.nameFolded,
          person.id,
        )
        .limit(sql.placeholder('most'))
    );
  }),
);

/** The people whom every typed word fits, those whose name begins with it first. Nobody where nothing was typed. */
export function findPeople(
  book: Book,
  { text, sale, most = 8 }: { readonly text: string; readonly sale: SaleRow; readonly most?: number },
): FoundPerson[] {
  const words = foldName(text).split(' ').filter(Boolean).slice(0, MOST_WORDS);
  if (words.length === 0) return [];
  const values = Object.fromEntries(
    words.flatMap((word, at) => [
      [`w${at}`, word],
      [`d${at}`, digitsOf(word)],
    ]),
  );
  const find = findByWords[words.length - 1]?.(book);
  return (find?.all({ ...values, most }) ?? []).map((row) => foundPerson(book, sale, row));
}

/** One person as the table shows them. */
function foundPerson(book: Book, sale: SaleRow, row: PersonRow): FoundPerson {
  return {
    personId: row.id,
    name: row.name,
    place: [row.city, row.region].filter(Boolean).join(', '),
    phone: row.phone,
    membership: membershipInWords(row, sale.heldOn),
    licence: licenceInWords(row, sale.heldOn),
    sellerNos: sellerNosOf(book, sale.id, row.id),
    typed: typedOf(PERSON_FIELDS, row),
  };
}

function fitsWord(at: number): SQL {
  const word = sql.placeholder(`w${at}`);
  const digits = sql.placeholder(`d${at}`);
  const phone = sql`replace(replace(replace(replace(replace(${person.phone}, '-', ''), ' ', ''), '(', ''), ')', ''), '.', '')`;
  return sql`(instr(${person.nameFolded}, ${word}) > 0
    OR instr(lower(${person.memberNo}), ${word}) > 0
    OR instr(lower(${person.licenceNo}), ${word}) > 0
    OR (length(${digits}) > 2 AND instr(${phone}, ${digits}) > 0))`;
}

/** A word of a phone number as its digits; nothing where it holds letters too. */
function digitsOf(word: string): string {
  const bare = word.replace(/[()+.-]/g, '');
  return /^\d+$/.test(bare) ? bare : '';
}

const findSellerNos = query(({ db }) =>
  db
    .select({ sellerNo: seller.sellerNo })
    .from(partner)
    .innerJoin(seller, eq(seller.id, partner.sellerId))
    .where(and(equals(partner.personId, 'personId'), equals(seller.saleId, 'saleId')))
    .orderBy(seller.sellerNo),
);

function sellerNosOf(book: Book, saleId: number, personId: number): number[] {
  const rows = findSellerNos(book).all({ personId, saleId });
  return rows.map(({ sellerNo }) => sellerNo);
}

/** More than a book of a lifetime has lines about one person. */
const MOST_LINES = 1_000_000;

/** Each part: its name, and the rows of a table that are about person `:id`. */
const PARTS: readonly (readonly [string, string])[] = [
  ['person', 'SELECT * FROM person WHERE id = :id'],
  ['atEachSale', 'SELECT * FROM particulars WHERE person_id = :id'],
  ['sellerNumbers', 'SELECT seller.*, parts FROM seller JOIN partner ON seller_id = seller.id WHERE person_id = :id'],
  ['lots', `SELECT lot.* FROM lot JOIN partner ON partner.seller_id = lot.seller_id WHERE person_id = :id`],
  [
    'tags',
    'SELECT tag.* FROM tag JOIN lot ON lot.id = lot_id JOIN partner ON partner.seller_id = lot.seller_id WHERE person_id = :id',
  ],
  ['dues', 'SELECT * FROM dues WHERE person_id = :id'],
  ['charges', 'SELECT charge.* FROM charge JOIN partner ON partner.seller_id = charge.seller_id WHERE person_id = :id'],
  ['buyerNumbers', 'SELECT * FROM buyer WHERE person_id = :id'],
  ['bought', 'SELECT outcome.* FROM outcome JOIN buyer ON buyer.id = buyer_id WHERE person_id = :id'],
  [
    'settlementSheets',
    'SELECT settlement.* FROM settlement JOIN partner ON partner.seller_id = settlement.seller_id WHERE person_id = :id',
  ],
  ['invoices', 'SELECT invoice.* FROM invoice JOIN buyer ON buyer.id = buyer_id WHERE person_id = :id'],
  [
    'payments',
    `SELECT payment.* FROM payment WHERE person_id = :id OR buyer_id IN (SELECT id FROM buyer WHERE person_id = :id)
       OR seller_id IN (SELECT seller_id FROM partner WHERE person_id = :id)`,
  ],
];

/** The person's file as JSON can carry it, or null where there is no such person. */
export function personFile(book: Book, personId: number): Record<string, unknown> | null {
  const parts = PARTS.map(([name, sql]) => [name, book.sqlite.prepare(sql).all({ id: personId })] as const);
  if (parts[0]?.[1].length === 0) return null;
  // An import is one line about many people: its words are enough, and its input is not theirs alone.
  const lines = logPart(book, { personId }, MOST_LINES).map(({ input: _, ...line }) => line);
  return { ...Object.fromEntries(parts), logLines: lines };
}
