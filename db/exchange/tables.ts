/** The CSV files of an exchange folder and their columns, in the order in which they are written. */
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { columnsOf, laterColumns } from '#lib/field/fields.ts';
import { KIND } from '#lib/field/kinds.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import { parseFormer } from '#lib/lot/former.ts';
import { PERSON_FIELDS } from '#lib/person/fields.ts';
import { accept, type Result } from '#lib/result/result.ts';
import { GOODS_FIELDS } from '#lib/sale/goods-fields.ts';
import { parseTag } from '#lib/tag/number.ts';

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
  /** The columns that are left out of a file in which no row has anything to say there. */
  readonly later?: readonly string[];
}

export interface Table<C extends AnyColumns = AnyColumns> extends Rules<C> {
  readonly file: string;
  readonly columns: C;
}

function table<C extends AnyColumns>(file: string, columns: C, rules: Rules<C>): Table<C> {
  return { file, columns, ...rules };
}

const price = KIND.money({ allowZero: false });
const partyNo = KIND.orNull(KIND.wholeNumber);

const exportTag = {
  read(text: string) {
    const tag = parseTag(text);
    return tag.ok ? accept(tag.value.canonical) : tag;
  },
  write: (tag: string) => tag,
};

const formerNumbers = {
  read(text: string) {
    const former = parseFormer(text);
    return former.ok ? accept(former.value.map(({ lotNo, how }) => `${lotNo} ${how}`).join(', ')) : former;
  },
  write: (text: string) => text,
};

const goods = table('goods.csv', columnsOf(GOODS_FIELDS), {
  ...{ required: ['goods', 'name', 'by'], keys: ['goods'], mustBeThere: false, later: laterColumns(GOODS_FIELDS) },
});

const people = table(
  'people.csv',
  { person_id: KIND.name, ...columnsOf(PERSON_FIELDS) },
  { required: ['person_id', 'name'], keys: ['person_id'], mustBeThere: true, later: laterColumns(PERSON_FIELDS) },
);

const sellers = table(
  'sellers.csv',
  { seller_no: KIND.wholeNumber, person_id: KIND.name, parts: KIND.wholeNumber },
  { required: ['seller_no', 'person_id', 'parts'], keys: ['seller_no'], mustBeThere: true },
);

const buyers = table(
  'buyers.csv',
  { buyer_no: KIND.wholeNumber, person_id: KIND.name, ...columnsOf(BUYER_FIELDS), cleared: KIND.flag },
  { required: ['buyer_no', 'person_id'], keys: ['buyer_no'], mustBeThere: false, later: laterColumns(BUYER_FIELDS) },
);

const lots = table(
  'lots.csv',
  { lot_no: KIND.lotNumber, seller_no: KIND.wholeNumber, ...columnsOf(LOT_FIELDS), former_numbers: formerNumbers },
  {
    ...{ required: ['lot_no', 'seller_no', 'goods', 'by'], keys: ['lot_no'], mustBeThere: true },
    later: [...laterColumns(LOT_FIELDS), 'former_numbers'],
  },
);

const tags = table(
  'tags.csv',
  { lot_no: KIND.lotNumber, tag: exportTag },
  { required: ['lot_no', 'tag'], keys: [], mustBeThere: false },
);

const bids = table(
  'bids.csv',
  {
    ...{ lot_no: KIND.lotNumber, buyer_no: KIND.wholeNumber, price, received_at: KIND.momentOrEmpty },
    /** Of a bid that counts no more. */
    ended: KIND.orNull(KIND.oneOf('retracted', 'late')),
  },
  { required: ['lot_no', 'buyer_no', 'price'], keys: [], mustBeThere: false, later: ['ended'] },
);

const results = table(
  'results.csv',
  {
    lot_no: KIND.lotNumber,
    outcome: KIND.oneOf('sold', 'passed', 'withdrawn', 'bought_back', 'unpaid'),
    price: KIND.orNull(price),
    buyer_no: partyNo,
    fate: KIND.orNull(KIND.oneOf('seller', 'association')),
  },
  { required: ['lot_no', 'outcome'], keys: ['lot_no'], mustBeThere: false, later: ['fate'] },
);

const charges = table(
  'charges.csv',
  {
    seller_no: KIND.wholeNumber,
    kind: KIND.oneOf('dues', 'advance', 'adjustment'),
    amount: KIND.money({ allowNegative: true }),
    how: KIND.oneOf('deducted', 'cash'),
    note: KIND.words,
  },
  { required: ['seller_no', 'kind', 'amount', 'how'], keys: [], mustBeThere: false },
);

const payments = table(
  'payments.csv',
  {
    direction: KIND.oneOf('in', 'out'),
    buyer_no: partyNo,
    seller_no: partyNo,
    person_id: KIND.orNull(KIND.name),
    method: KIND.oneOf('cash', 'check', 'card', 'other', 'set_off', 'written_off', 'check_fee'),
    amount: price,
    reference: KIND.words,
    paid_at: KIND.moment,
    deposit: partyNo,
    on_statement: KIND.orNull(KIND.date),
  },
  {
    ...{ required: ['direction', 'method', 'amount', 'paid_at'], keys: [], mustBeThere: false },
    later: ['deposit', 'on_statement'],
  },
);

const takings = table(
  'takings.csv',
  {
    kind: KIND.oneOf('raffle', 'door', 'donation', 'food', 'other'),
    method: KIND.oneOf('cash', 'check', 'card', 'other'),
    amount: price,
    note: KIND.words,
    taken_at: KIND.moment,
  },
  { required: ['kind', 'method', 'amount', 'taken_at'], keys: [], mustBeThere: false },
);

const deposits = table(
  'deposits.csv',
  { deposit: KIND.wholeNumber, day: KIND.date, cash: KIND.money(), on_statement: KIND.orNull(KIND.date) },
  { required: ['deposit', 'day', 'cash'], keys: ['deposit'], mustBeThere: false },
);

const arrivals = table(
  'arrivals.csv',
  { method: KIND.oneOf('card', 'other'), day: KIND.date, amount: price, fee: KIND.money() },
  { required: ['method', 'day', 'amount', 'fee'], keys: [], mustBeThere: false },
);

const banked = { takings, deposits, arrivals };

export const TABLES = { goods, people, sellers, buyers, lots, tags, bids, results, charges, payments, ...banked };
type Tables = typeof TABLES;
export type TableName = keyof Tables;
export const TABLE_NAMES = Object.keys(TABLES) as TableName[];
export const SALE_FILE = 'sale.json';

/** A table where its own columns do not matter. */
export function exchangeTable(name: TableName): Table {
  return TABLES[name] as unknown as Table;
}

type CellOf<K> = K extends { read(text: string): Result<infer T> } ? T : never;
/** The cells of one row of a table, read. */
export type RowOf<N extends TableName> = {
  readonly [K in keyof Tables[N]['columns']]: CellOf<Tables[N]['columns'][K]>;
};

/** Whether a bid has a part in the awarding. */
export function counts({ ended = null }: { readonly ended?: RowOf<'bids'>['ended'] | undefined }): boolean {
  return ended === null;
}
