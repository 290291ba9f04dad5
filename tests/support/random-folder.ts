/** Random whole exchange folders that are right in every respect, with everything in them that the form allows. */

import {
  CSV_FILES,
  columnsOf,
  csvOf,
  type FolderRow,
  type FolderRows,
  type RandomFolder,
} from '#tests/support/exchange.ts';
import { type Chance, chanceOf } from '#tests/support/random.ts';

export interface Wanted {
  readonly lots: number;
  readonly bidding?: 'floor' | 'sealed';
  readonly name?: string;
}

/** Words that a careless reader or writer of CSV would spoil. */
const WORDS = [
  '',
  '',
  'Mill Road 3',
  'a, b',
  'say "hi"',
  'two\nlines',
  'two\r\nlines',
  ' kept ',
  '=1+1',
  '-5',
  '\u0141ucja',
  '\u5c71\u7530',
  "'",
  '@x',
  '\ttab',
  'lone\rreturn',
  '""',
];
const NAMES = [
  'Wren Tamarack',
  '\u0141ucja \u017bak',
  'Quill, Hollis',
  'Ruth "Red" Okafor',
  'Odd\nN\u00e6ss',
  '=SUM(A1)',
  "Zo\u00eb d'Arc",
];
const KINDS = [
  { goods: 'bobcat', by: 'piece', code: 'BOB' },
  { goods: 'otter', by: 'piece', code: 'OTT' },
  { goods: 'raccoon', by: 'piece', code: '' },
  { goods: 'musk, rat', by: 'piece', code: '' },
  { goods: 'castor', by: 'oz', code: '' },
  { goods: 'deer-hide', by: 'lb', code: '' },
] as const;
const MOMENTS = ['2026-02-28', '2026-02-28T09:30:00Z', '2026-02-28T09:30+01:00', '2026-03-01T10:00:00.250Z'];

export function randomFolder(seed: number, wanted: Wanted): RandomFolder {
  const chance = chanceOf(seed);
  const bidding = wanted.bidding ?? chance.pick(['floor', 'sealed'] as const);
  const people = peopleRows(chance, 12);
  const ids = people.map((row) => row.person_id ?? '');
  const sellers = sellerRows(chance, ids);
  const sellerNos = [...new Set(sellers.map((row) => row.seller_no ?? ''))];
  const buyers = buyerRows(chance, ids);
  const buyerNos = buyers.map((row) => row.buyer_no ?? '');
  const lots = lotRows(chance, wanted.lots, sellerNos);
  const all = new Lots(chance, { bidding, buyerNos });
  for (const lot of lots) all.add(lot);
  const rows: FolderRows = {
    'goods.csv': KINDS.map(({ goods, by, code }) => ({
      ...{ goods, name: chance.pick(NAMES), scientific_name: chance.pick(WORDS), by },
      ...{ export_tag: code === '' ? 'no' : 'yes', tag_species_code: code, season_limit: chance.pick(['', '99999']) },
    })),
    'people.csv': people,
    'sellers.csv': sellers,
    'buyers.csv': buyers,
    'lots.csv': lots,
    'tags.csv': all.tags,
    'bids.csv': chance.shuffled(all.bids),
    'results.csv': all.results,
    'charges.csv': Array.from({ length: chance.int(0, 6) }, () => chargeRow(chance, sellerNos)),
    ...bankedRows(
      chance,
      Array.from({ length: chance.int(0, 6) }, () => paymentRow(chance, { sellerNos, buyerNos, ids })),
    ),
  };
  return { sale: saleOf(chance, { seed, bidding, name: wanted.name }), rows };
}

const money = (cents: number) => {
  const digits = String(Math.abs(cents)).padStart(3, '0');
  return `${cents < 0 ? '-' : ''}${digits.slice(0, -2)}.${digits.slice(-2)}`;
};
const flag = (yes: boolean) => (yes ? 'yes' : 'no');

function saleOf(chance: Chance, about: { seed: number; bidding: string; name: string | undefined }) {
  const rate = () => chance.pick(['0', '2.5', '3.75', '6', '7.50', '10', '12.5', '33.3333']);
  return {
    ...{
      name: about.name ?? `Sale "${about.seed}", the ${chance.pick(NAMES)}`,
      held_on: '2026-02-28',
      venue: chance.pick(WORDS),
    },
    ...{ season: '2025-26', season_closes_on: chance.pick([null, '2026-02-15']), region: 'US-WY', currency: 'USD' },
    bidding: about.bidding,
    terms: {
      commission: { member: rate(), guest: rate() },
      commission_overrides: chance.once(2)
        ? {}
        : { bobcat: { member: rate(), guest: rate() }, 'musk, rat': { member: rate(), guest: rate() } },
      ...{
        commission_min: money(chance.pick([0, 10, 500])),
        seller_number_fee: money(500),
        lot_fee: money(chance.pick([0, 25])),
      },
      no_sale: { flat: money(chance.pick([0, 100])), pct_of_minimum: rate() },
      ...{
        premium_pct: rate(),
        tax_pct: rate(),
        price_step: '0.25',
        left_bids: 'bid',
        guests_may_sell: true,
        dues: '25.00',
      },
    },
  };
}

function peopleRows(chance: Chance, howMany: number): FolderRow[] {
  return chance.shuffled(Array.from({ length: howMany }, (_, at) => at)).map((at) => ({
    ...{
      person_id: `P${at}`,
      name: `${chance.pick(NAMES)} ${at}`,
      street: chance.pick(WORDS),
      city: chance.pick(WORDS),
    },
    ...{ region: chance.pick(['', 'WY']), postcode: '82000', phone: chance.pick(WORDS), email: '' },
    ...{
      member_no: chance.pick(['', `M${at}`]),
      member_until: chance.pick(['', '2025-12-31', '2026-02-28', '2026-12-31']),
    },
    // Everybody has a licence of their own, and some of another State.
    ...{
      licence_no: `L${at}`,
      licence_region: at === 3 ? 'US-MT' : chance.pick(['', 'US-WY']),
      licence_expires: chance.pick(['', '2026-12-31']),
    },
  }));
}

function sellerRows(chance: Chance, ids: readonly string[]): FolderRow[] {
  return [1, 2, 3, 7, 20].flatMap((seller) => {
    const partners = chance.shuffled(ids).slice(0, chance.pick([1, 1, 2, 3]));
    return partners.map((person_id) => ({ seller_no: String(seller), person_id, parts: String(chance.int(1, 7)) }));
  });
}

function buyerRows(chance: Chance, ids: readonly string[]): FolderRow[] {
  return [10, 11, 56].map((buyer) => ({
    ...{ buyer_no: String(buyer), person_id: chance.pick(ids), licence_no: chance.pick(WORDS) },
    ...{ tax_exempt: flag(chance.once(2)), exempt_no: chance.pick(WORDS), cleared: flag(chance.once(2)) },
  }));
}

function lotRows(chance: Chance, howMany: number, sellerNos: readonly string[]): FolderRow[] {
  const numbers = Array.from({ length: howMany }, (_, at) => at + 1).flatMap((at) =>
    chance.once(8) ? [`${at}`, `${at}A`, `${at}B`] : [`${at}`],
  );
  return numbers.slice(0, howMany).map((lot_no) => {
    const kind = chance.pick(KINDS);
    const byWeight = kind.by === 'oz' || kind.by === 'lb';
    const by = byWeight ? kind.by : chance.pick(['piece', 'piece', 'lot']);
    const count = byWeight
      ? chance.pick(['', '1', '40'])
      : String(kind.code === '' ? chance.int(1, 300) : chance.int(1, 5));
    return {
      ...{ lot_no, seller_no: chance.pick(sellerNos), goods: kind.goods, by, count },
      weight: byWeight ? chance.pick(['7.35', '763.6', '0.001', '12', '999999.999']) : '',
      ...{ size: chance.pick(['', 'L', 'XL']), grade: chance.pick(WORDS), section: chance.pick(['', 'east', 'west']) },
      ...{
        minimum: chance.pick(['', '', '0.80', '25.00', '12.50']),
        donated: flag(chance.once(9)),
        note: chance.pick(WORDS),
      },
    };
  });
}

interface LotsAbout {
  readonly bidding: 'floor' | 'sealed';
  readonly buyerNos: readonly string[];
}

/** What happens to each lot: its tags, bids and result. */
class Lots {
  readonly tags: FolderRow[] = [];
  readonly bids: FolderRow[] = [];
  readonly results: FolderRow[] = [];
  #serial = 100;

  constructor(
    private readonly chance: Chance,
    private readonly about: LotsAbout,
  ) {}

  add(lot: FolderRow): void {
    const { chance } = this;
    const kind = KINDS.find(({ goods }) => goods === lot.goods);
    const held = kind !== undefined && kind.code !== '' && chance.once(6);
    if (kind !== undefined && kind.code !== '') this.#tag(lot, kind.code, held);
    if (chance.once(3)) for (let n = chance.int(1, 4); n > 0; n -= 1) this.#bid(lot);
    if (held ? chance.once(3) : !chance.once(5)) this.#result(lot, held);
  }

  #tag(lot: FolderRow, code: string, held: boolean): void {
    const pieces = Number.parseInt(lot.count ?? '', 10) - (held ? 1 : 0);
    for (let n = 0; n < pieces; n += 1) {
      this.#serial += this.chance.int(1, 3);
      const serial = String(this.#serial).padStart(6, '0');
      const tag = this.chance.once(9) ? `US-CITES FWS-REPL ${serial}` : `US-CITES WY ${code} 2025 ${serial}`;
      this.tags.push({ lot_no: lot.lot_no ?? '', tag });
    }
  }

  #bid(lot: FolderRow): void {
    const price = this.chance.pick(['0.25', '5.00', '12.50', '25.00', '25.00', '90.10']);
    const received_at = this.chance.pick(['', ...MOMENTS]);
    this.bids.push({ lot_no: lot.lot_no ?? '', buyer_no: this.chance.pick(this.about.buyerNos), price, received_at });
  }

  #result(lot: FolderRow, held: boolean): void {
    const { chance } = this;
    const outcome = held ? 'withdrawn' : chance.pick(OUTCOMES);
    const sold = outcome === 'sold' || outcome === 'unpaid';
    const price =
      sold || outcome === 'bought_back' ? money(chance.pick([1, 35, 775, 1225, 11275, chance.int(1, 90_000)])) : '';
    this.results.push({
      lot_no: lot.lot_no ?? '',
      outcome,
      price,
      buyer_no: sold ? chance.pick(this.about.buyerNos) : '',
      fate: outcome === 'unpaid' ? chance.pick(['seller', 'association']) : '',
    });
  }
}

const OUTCOMES = ['sold', 'sold', 'sold', 'sold', 'passed', 'passed', 'withdrawn', 'bought_back', 'unpaid'] as const;

function chargeRow(chance: Chance, sellerNos: readonly string[]): FolderRow {
  const kind = chance.pick(['dues', 'advance', 'adjustment']);
  const amount = money(kind === 'adjustment' ? chance.int(-9000, 9000) : chance.int(0, 9000));
  return {
    seller_no: chance.pick(sellerNos),
    kind,
    amount,
    how: chance.pick(['deducted', 'cash']),
    note: chance.pick(WORDS),
  };
}

function paymentRow(
  chance: Chance,
  { sellerNos, buyerNos, ids }: Record<'sellerNos' | 'buyerNos' | 'ids', readonly string[]>,
): FolderRow {
  const party = chance.pick([
    { buyer_no: chance.pick(buyerNos), seller_no: '', person_id: chance.pick(['', chance.pick(ids)]) },
    { buyer_no: '', seller_no: chance.pick(sellerNos), person_id: chance.pick(['', chance.pick(ids)]) },
    { buyer_no: '', seller_no: '', person_id: chance.pick(ids) },
  ]);
  return {
    ...{
      direction: chance.pick(['in', 'out']),
      ...party,
      method: chance.pick(['cash', 'check', 'card', 'other', 'set_off', 'check_fee']),
    },
    ...{ amount: money(chance.int(1, 90_000)), reference: chance.pick(WORDS), paid_at: chance.pick(MOMENTS) },
  };
}

const DAYS = ['2026-02-28', '2026-03-01', '2026-03-31'];

/** Some of the checks that were taken in are in deposits, some that were written stand on a statement. */
function bankedRows(chance: Chance, paid: readonly FolderRow[]) {
  const banks = chance.int(0, 3);
  const payments = paid.map((row) => {
    const isCheck = row.method === 'check';
    const banked = isCheck && row.direction === 'in' && banks > 0 && chance.once(2);
    const marked = isCheck && row.direction === 'out' && chance.once(2);
    return {
      ...row,
      deposit: banked ? String(chance.int(1, banks)) : '',
      on_statement: marked ? chance.pick(DAYS) : '',
    };
  });
  const holdsCheck = (no: string) => payments.some(({ deposit }) => deposit === no);
  const deposits = Array.from({ length: banks }, (_, at) => {
    const no = String(at + 1);
    const cash = money(holdsCheck(no) ? chance.pick([0, 4000]) : chance.int(1, 9000));
    return { deposit: no, day: '2026-02-28', cash, on_statement: chance.pick(['', ...DAYS]) };
  });
  return { 'payments.csv': payments, 'deposits.csv': deposits, ...takingRows(chance) };
}

function takingRows(chance: Chance): Record<'takings.csv' | 'arrivals.csv', FolderRow[]> {
  const takings = Array.from({ length: chance.int(0, 4) }, () => ({
    kind: chance.pick(['raffle', 'door', 'donation', 'food', 'other']),
    method: chance.pick(['cash', 'check', 'card', 'other']),
    ...{ amount: money(chance.int(1, 9000)), note: chance.pick(WORDS), taken_at: chance.pick(MOMENTS) },
  }));
  const arrivals = Array.from({ length: chance.int(0, 2) }, () => ({
    ...{ method: chance.pick(['card', 'other']), day: chance.pick(DAYS) },
    ...{ amount: money(chance.int(500, 9000)), fee: money(chance.pick([0, 290])) },
  }));
  return { 'takings.csv': takings, 'arrivals.csv': arrivals };
}

/** The files of a folder, tidily, as they are to come out again. */
export function filesOf({ sale, rows }: RandomFolder): Record<string, string> {
  const tables = CSV_FILES.map((file) => [file, csvOf(columnsOf(file, rows[file]), rows[file])]);
  return { ...Object.fromEntries(tables), 'sale.json': `${JSON.stringify(sale, null, 2)}\n` };
}
