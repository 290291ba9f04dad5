/** The CSV files of an exchange folder and their columns, in the order in which they are written. */
import { BYS } from '#lib/facts.ts';
import type { Result } from '#lib/result.ts';
import * as c from './columns.ts';

interface AnyColumn {
  read(text: string): Result<unknown>;
  write(value: never): string;
}

type AnyColumns = Readonly<Record<string, AnyColumn>>;

interface Rules<C extends AnyColumns> {
  /** The columns without which a row says nothing; another one that is missing is empty. */
  readonly required: readonly (keyof C & string)[];
  /** The columns by which other rows refer to a row of this file. */
  readonly keys: readonly (keyof C & string)[];
  /** Whether the folder must have the file. */
  readonly mustBeThere: boolean;
}

export interface Table<C extends AnyColumns = AnyColumns> extends Rules<C> {
  readonly file: string;
  readonly columns: C;
}

function table<C extends AnyColumns>(file: string, columns: C, rules: Rules<C>): Table<C> {
  return { file, columns, ...rules };
}

const price = c.money({ allowZero: false });
const partyNo = c.orNull(c.wholeNumber);

const goods = table(
  'goods.csv',
  {
    goods: c.shortName,
    name: c.name,
    scientific_name: c.words,
    by: c.oneOf(...BYS),
    export_tag: c.flag,
    tag_species_code: c.words,
    season_limit: c.orNull(c.count),
  },
  { required: ['goods', 'name', 'by'], keys: ['goods'], mustBeThere: false },
);

const people = table(
  'people.csv',
  {
    person_id: c.name,
    name: c.name,
    street: c.words,
    city: c.words,
    region: c.words,
    postcode: c.words,
    phone: c.words,
    email: c.words,
    member_no: c.words,
    member_until: c.orNull(c.date),
    licence_no: c.words,
    licence_region: c.region,
    licence_expires: c.orNull(c.date),
  },
  { required: ['person_id', 'name'], keys: ['person_id'], mustBeThere: true },
);

const sellers = table(
  'sellers.csv',
  { seller_no: c.wholeNumber, person_id: c.name, parts: c.wholeNumber },
  { required: ['seller_no', 'person_id', 'parts'], keys: ['seller_no'], mustBeThere: true },
);

const buyers = table(
  'buyers.csv',
  {
    buyer_no: c.wholeNumber,
    person_id: c.name,
    licence_no: c.words,
    tax_exempt: c.flag,
    exempt_no: c.words,
    cleared: c.flag,
  },
  { required: ['buyer_no', 'person_id'], keys: ['buyer_no'], mustBeThere: false },
);

const lots = table(
  'lots.csv',
  {
    lot_no: c.lotNumber,
    seller_no: c.wholeNumber,
    goods: c.shortName,
    by: c.oneOf(...BYS),
    count: c.orNull(c.count),
    weight: c.orNull(c.weight),
    size: c.words,
    grade: c.words,
    section: c.words,
    minimum: c.orNull(c.money()),
    donated: c.flag,
    note: c.words,
  },
  { required: ['lot_no', 'seller_no', 'goods', 'by'], keys: ['lot_no'], mustBeThere: true },
);

const tags = table(
  'tags.csv',
  { lot_no: c.lotNumber, tag: c.exportTag },
  { required: ['lot_no', 'tag'], keys: [], mustBeThere: false },
);

const bids = table(
  'bids.csv',
  { lot_no: c.lotNumber, buyer_no: c.wholeNumber, price, received_at: c.momentOrEmpty },
  { required: ['lot_no', 'buyer_no', 'price'], keys: [], mustBeThere: false },
);

const results = table(
  'results.csv',
  {
    lot_no: c.lotNumber,
    outcome: c.oneOf('sold', 'passed', 'withdrawn'),
    price: c.orNull(price),
    buyer_no: partyNo,
  },
  { required: ['lot_no', 'outcome'], keys: ['lot_no'], mustBeThere: false },
);

const charges = table(
  'charges.csv',
  {
    seller_no: c.wholeNumber,
    kind: c.oneOf('dues', 'advance', 'adjustment'),
    amount: c.money({ allowNegative: true }),
    how: c.oneOf('deducted', 'cash'),
    note: c.words,
  },
  { required: ['seller_no', 'kind', 'amount', 'how'], keys: [], mustBeThere: false },
);

const payments = table(
  'payments.csv',
  {
    direction: c.oneOf('in', 'out'),
    buyer_no: partyNo,
    seller_no: partyNo,
    person_id: c.orNull(c.name),
    method: c.oneOf('cash', 'check', 'card', 'other'),
    amount: price,
    reference: c.words,
    paid_at: c.moment,
  },
  { required: ['direction', 'method', 'amount', 'paid_at'], keys: [], mustBeThere: false },
);

export const TABLES = { goods, people, sellers, buyers, lots, tags, bids, results, charges, payments };
type Tables = typeof TABLES;
export type TableName = keyof Tables;
export const TABLE_NAMES = Object.keys(TABLES) as TableName[];
export const SALE_FILE = 'sale.json';

/** A table where its own columns do not matter. */
export function tableOf(name: TableName): Table {
  return TABLES[name] as unknown as Table;
}

type CellOf<K> = K extends { read(text: string): Result<infer T> } ? T : never;
/** The cells of one row of a table, read. */
export type RowOf<N extends TableName> = {
  readonly [K in keyof Tables[N]['columns']]: CellOf<Tables[N]['columns'][K]>;
};
