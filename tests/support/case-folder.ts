/** Reads a worked sale of `tests/cases/` into facts, apart from the program's own reader of exchange folders. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { emptyFacts, inFolder } from '#lib/field/fields.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import { type LotNo, lotNo } from '#lib/lot/number.ts';
import { rate } from '#lib/money/rate.ts';
import { parseWeight } from '#lib/quantity/quantity.ts';
import type {
  Buyer,
  Charge,
  CommissionRates,
  Goods,
  Lot,
  Outcome,
  Partner,
  Person,
  Sale,
  SaleFacts,
  Seller,
} from '#lib/sale/facts.ts';
import { money } from './facts.ts';

type Row = Record<string, string>;

export interface Case {
  readonly facts: SaleFacts;
  readonly people: readonly Person[];
  readonly tags: readonly { lotNo: LotNo; tag: string }[];
}

function pathOf(folder: string, file: string): string {
  return fileURLToPath(new URL(`../cases/${folder}/${file}`, import.meta.url));
}

export function readRows(folder: string, file: string): Row[] {
  return parse(readFileSync(pathOf(folder, file)), { columns: true, bom: true }) as Row[];
}

/** An expected table as it lies there: the header and the cells of each row. */
export function readTable(folder: string, file: string): string[][] {
  return parse(readFileSync(pathOf(folder, `expected/${file}`)), { bom: true }) as string[][];
}

export function readCase(folder: string): Case {
  const people = readRows(folder, 'people.csv').map(personOf);
  const facts: SaleFacts = {
    sale: saleOf(JSON.parse(readFileSync(pathOf(folder, 'sale.json'), 'utf8'))),
    timeZone: 'UTC',
    goods: readRows(folder, 'goods.csv').map(goodsOf),
    sellers: sellersOf(readRows(folder, 'sellers.csv'), people),
    buyers: readRows(folder, 'buyers.csv').map(buyerOf),
    lots: readRows(folder, 'lots.csv').map(lotOf),
    outcomes: readRows(folder, 'results.csv').map(outcomeOf),
    charges: readRows(folder, 'charges.csv').map(chargeOf),
    payments: [],
    takings: [],
    cardFees: [],
  };
  const tags = readRows(folder, 'tags.csv').map((row) => ({
    lotNo: lotNo(cell(row, 'lot_no')),
    tag: cell(row, 'tag'),
  }));
  return { facts, people, tags };
}

function cell(row: Row, column: string): string {
  const value = row[column];
  if (value === undefined) throw new Error(`no column ${column}`);
  return value;
}

const whole = (text: string) => Number.parseInt(text, 10);
const orNull = <T>(text: string, read: (text: string) => T): T | null => (text === '' ? null : read(text));

// biome-ignore format: one line a field reads as the table it is.
interface SaleJson {
  name: string; held_on: string; venue: string; season: string; season_closes_on: string; region: string;
  currency: string; bidding: 'floor' | 'sealed';
  terms: {
    commission: Row; commission_overrides?: Record<string, Row>; commission_min: string; seller_number_fee: string;
    lot_fee: string; no_sale: Row; premium_pct: string; tax_pct: string; price_step: string; guests_may_sell: boolean; dues: string;
  };
}

function saleOf(json: SaleJson): Sale {
  const { terms } = json;
  const overrides = Object.entries(terms.commission_overrides ?? {}).map(([kind, rates]) => [kind, ratesOf(rates)]);
  return {
    name: json.name,
    heldOn: json.held_on,
    venue: json.venue,
    season: json.season,
    seasonClosesOn: json.season_closes_on,
    region: json.region,
    currency: json.currency,
    bidding: json.bidding,
    terms: {
      commission: ratesOf(terms.commission),
      commissionOverrides: Object.fromEntries(overrides),
      commissionMinCents: money(terms.commission_min),
      sellerNumberFeeCents: money(terms.seller_number_fee),
      lotFeeCents: money(terms.lot_fee),
      noSaleFlatCents: money(cell(terms.no_sale, 'flat')),
      noSalePctOfMinimum: rate(cell(terms.no_sale, 'pct_of_minimum')),
      premiumPct: rate(terms.premium_pct),
      taxPct: rate(terms.tax_pct),
      priceStepCents: money(terms.price_step),
      leftBids: 'step',
      guestsMaySell: terms.guests_may_sell,
      duesCents: money(terms.dues),
    },
  };
}

function ratesOf(row: Row): CommissionRates {
  return { member: rate(cell(row, 'member')), guest: rate(cell(row, 'guest')) };
}

function goodsOf(row: Row): Goods {
  return {
    goods: cell(row, 'goods'),
    name: cell(row, 'name'),
    scientificName: cell(row, 'scientific_name'),
    by: cell(row, 'by') as Goods['by'],
    exportTag: cell(row, 'export_tag') === 'yes',
    tagSpeciesCode: cell(row, 'tag_species_code'),
    seasonLimit: orNull(cell(row, 'season_limit'), whole),
  };
}

function personOf(row: Row): Person {
  return {
    personId: cell(row, 'person_id'),
    name: cell(row, 'name'),
    street: cell(row, 'street'),
    city: cell(row, 'city'),
    region: cell(row, 'region'),
    postcode: cell(row, 'postcode'),
    phone: cell(row, 'phone'),
    email: cell(row, 'email'),
    memberNo: cell(row, 'member_no'),
    memberUntil: orNull(cell(row, 'member_until'), String),
    licenceNo: cell(row, 'licence_no'),
    licenceRegion: cell(row, 'licence_region'),
    licenceExpires: orNull(cell(row, 'licence_expires'), String),
    payee: '',
  };
}

function sellersOf(rows: readonly Row[], people: readonly Person[]): Seller[] {
  const partners = new Map<number, Partner[]>();
  for (const row of rows) {
    const sellerNo = whole(cell(row, 'seller_no'));
    const personId = cell(row, 'person_id');
    const memberUntil = people.find((person) => person.personId === personId)?.memberUntil ?? null;
    const own = partners.get(sellerNo) ?? [];
    partners.set(sellerNo, [...own, { personId, memberUntil, parts: whole(cell(row, 'parts')) }]);
  }
  return [...partners].map(([sellerNo, own]) => ({ sellerNo, partners: own }));
}

function buyerOf(row: Row): Buyer {
  return {
    buyerNo: whole(cell(row, 'buyer_no')),
    personId: cell(row, 'person_id'),
    licenceNo: cell(row, 'licence_no'),
    taxExempt: cell(row, 'tax_exempt') === 'yes',
    exemptNo: cell(row, 'exempt_no'),
    cleared: cell(row, 'cleared') === 'yes',
  };
}

function lotOf(row: Row): Lot {
  return {
    ...emptyFacts(inFolder(LOT_FIELDS)),
    lotNo: lotNo(cell(row, 'lot_no')),
    sellerNo: whole(cell(row, 'seller_no')),
    goods: cell(row, 'goods'),
    by: cell(row, 'by') as Lot['by'],
    count: orNull(cell(row, 'count'), whole),
    weightThousandths: orNull(cell(row, 'weight'), thousandths),
    size: cell(row, 'size'),
    grade: cell(row, 'grade'),
    section: cell(row, 'section'),
    minimumCents: orNull(cell(row, 'minimum'), money),
    donated: cell(row, 'donated') === 'yes',
    note: cell(row, 'note'),
  };
}

function thousandths(text: string): number {
  const read = parseWeight(text);
  if (!read.ok) throw new Error(`${text}: ${read.message}`);
  return read.value;
}

function outcomeOf(row: Row): Outcome {
  return {
    lotNo: lotNo(cell(row, 'lot_no')),
    kind: cell(row, 'outcome') as Outcome['kind'],
    priceCents: orNull(cell(row, 'price'), money),
    buyerNo: orNull(cell(row, 'buyer_no'), whole),
  };
}

function chargeOf(row: Row): Charge {
  return {
    sellerNo: whole(cell(row, 'seller_no')),
    kind: cell(row, 'kind') as Charge['kind'],
    amountCents: money(cell(row, 'amount')),
    how: cell(row, 'how') as Charge['how'],
    note: cell(row, 'note'),
  };
}
