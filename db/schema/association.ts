import { sql } from 'drizzle-orm';
import { check, integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { id, line, oneOf, words } from './columns.ts';

/** The one association whose book this is. */
export const association = sqliteTable(
  'association',
  {
    id: id(),
    name: text('name').notNull(),
    street: words('street'),
    city: words('city'),
    region: words('region'),
    postcode: words('postcode'),
    phone: words('phone'),
    email: words('email'),
    paper: text('paper').notNull().default('letter'),
    /** IANA, such as America/Denver; empty where nobody has said it. Ask `timeZoneOf` in db/sale/queries.ts. */
    timeZone: words('time_zone'),
    line: line(),
  },
  (t) => [check('association_one', sql`${t.id} = 1`), oneOf('association_paper', t.paper, ['letter', 'a4'])],
);

/** A person as the association knows them now; what stood at one sale is in `particulars`. */
export const person = sqliteTable('person', {
  id: id(),
  ref: text('ref').notNull().unique(),
  ...personColumns(),
  /** The name without diacritics and in lower case, for finding. */
  nameFolded: text('name_folded').notNull(),
  line: integer('line').notNull(),
});

/** The columns that say who somebody is, shared by `person` and `particulars`. */
export function personColumns() {
  return {
    name: text('name').notNull(),
    street: words('street'),
    city: words('city'),
    region: words('region'),
    postcode: words('postcode'),
    phone: words('phone'),
    email: words('email'),
    memberNo: words('member_no'),
    memberUntil: text('member_until'),
    /** The log line that brought this membership: dues, an amendment that changed its day, or how the person came in. */
    memberLine: integer('member_line').notNull(),
    licenceNo: words('licence_no'),
    licenceRegion: words('licence_region'),
    licenceExpires: text('licence_expires'),
  };
}
