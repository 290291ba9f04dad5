/** A sale as large as one wants it, as an exchange folder has it: no sale of the trade is so large. */
import type { RawTable } from '#db/exchange/problem.ts';
import type { FolderRead } from '#db/exchange/read-folder.ts';
import { TABLE_NAMES, type TableName } from '#db/exchange/tables.ts';
import { GOODS } from '#seed/association.ts';

export interface Size {
  readonly lots: number;
  readonly sellers: number;
  readonly buyers: number;
  /** How many of the lots were called. */
  readonly called: number;
  readonly name?: string;
  readonly heldOn?: string;
}

type Cells = Readonly<Record<string, string>>;

const NUMBERS = 50_000;
const FAMILIES = ['Tamarack', 'Birch', 'Quill', 'Okafor', 'Żak', 'Næss', 'Hollis', 'Sorrel', 'Vane', 'Ames'];
const FIRST = ['Wren', 'Ada', 'Bea', 'Cal', 'Dot', 'Finn', 'Gale', 'Hal', 'Ines', 'Jory', 'Kit', 'Lou'];
/** Their lots take no export tag, so that every lot can be put up. */
const KINDS = GOODS.filter(({ exportTag }) => !exportTag);

const TERMS = {
  commission: { member: '6', guest: '10' },
  commission_overrides: {},
  commission_min: '0.10',
  seller_number_fee: '5.00',
  lot_fee: '0.25',
  no_sale: { flat: '1.00', pct_of_minimum: '2' },
  premium_pct: '5',
  tax_pct: '6.5',
  price_step: '0.25',
};

/** Lot numbers end at 99999, so that the second fifty thousand carry a letter. */
export const bigLotNo = (at: number): string => (at <= NUMBERS ? String(at) : `${at - NUMBERS}A`);

/** The folder of a sale with these sizes. The same sizes give the same folder. */
export function bigFolder(size: Size): FolderRead {
  const { name = 'The Large Sale', heldOn = '2026-02-28' } = size;
  const sale = {
    ...{ name, held_on: heldOn, venue: 'Grange hall', season: '2025-26', region: 'US-WY' },
    ...{ currency: 'USD', bidding: 'floor', terms: TERMS },
  };
  const rows: Partial<Record<TableName, Cells[]>> = {
    goods: KINDS.map(({ goods, name: called, scientificName, by }) => ({
      ...{ goods, name: called, scientific_name: scientificName, by },
    })),
    people: upTo(size.sellers + size.buyers, personOf),
    sellers: upTo(size.sellers, (at) => ({ seller_no: String(at), person_id: `P${at}`, parts: '1' })),
    buyers: upTo(size.buyers, (at) => ({
      ...{ buyer_no: String(at), person_id: `P${size.sellers + at}`, licence_no: `L-${at}`, cleared: 'yes' },
    })),
    lots: upTo(size.lots, (at) => lotOf(at, size)),
    results: upTo(size.called, (at) => resultOf(at, size)),
  };
  return { raw: { sale, saleLines: new Map(), tables: tablesOf(rows) }, problems: [], ignored: [] };
}

function tablesOf(rows: Partial<Record<TableName, Cells[]>>): FolderRead['raw']['tables'] {
  const tables = TABLE_NAMES.map((name): [TableName, RawTable] => {
    const own = (rows[name] ?? []).map((cells, at) => ({ line: at + 2, cells }));
    return [name, { rows: own, absent: own.length === 0, lacking: new Set() }];
  });
  return Object.fromEntries(tables) as FolderRead['raw']['tables'];
}

function upTo(last: number, make: (at: number) => Cells): Cells[] {
  return Array.from({ length: last }, (_, at) => make(at + 1));
}

function personOf(at: number): Cells {
  const name = `${FIRST[at % FIRST.length]} ${FAMILIES[(at * 7) % FAMILIES.length]} ${at}`;
  const member = at % 3 === 0 ? {} : { member_no: `M${at}`, member_until: '2026-12-31' };
  return { person_id: `P${at}`, name, street: `Mill Road ${at}`, city: 'Harrow', region: 'WY', ...member };
}

function lotOf(at: number, { sellers }: Size): Cells {
  const kind = KINDS[(at * 7) % KINDS.length];
  if (!kind) throw new RangeError('There are no goods.');
  const heavy = kind.by === 'oz' || kind.by === 'lb';
  const quantity = heavy ? { weight: `${1 + (at % 30)}.25` } : { count: String(1 + (at % 40)) };
  return {
    ...{ lot_no: bigLotNo(at), seller_no: String(1 + ((at * 11) % sellers)), goods: kind.goods, by: kind.by },
    ...{ ...quantity, size: kind.sizes[at % Math.max(kind.sizes.length, 1)] ?? '', grade: 'I' },
    ...(at % 10 === 3 ? { minimum: '8.00' } : {}),
    ...(at % 97 === 0 ? { donated: 'yes' } : {}),
  };
}

function resultOf(at: number, { buyers }: Size): Cells {
  if (at % 20 === 0) return { lot_no: bigLotNo(at), outcome: 'passed' };
  const cents = 825 + ((at * 7919) % 97) * 25;
  const price = `${Math.floor(cents / 100)}.${String(cents % 100).padStart(2, '0')}`;
  return { lot_no: bigLotNo(at), outcome: 'sold', price, buyer_no: String(1 + ((at * 19) % buyers)) };
}
