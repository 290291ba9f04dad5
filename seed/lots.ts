/** What a party brings to a sale, before it is called. */
import type { LotSaid } from '#lib/lot/fields.ts';
import { Decimal } from '#lib/money/decimal.ts';
import { type Season, type Wares, worth } from './market.ts';
import type { Prng } from './prng.ts';
import type { Party } from './sellers.ts';

/**
 * How the hammer falls: as the market has it; with the seller taking less than the minimum; written down wrongly at
 * first; passed without a bid; or taken home before it is called.
 */
export type Fate = 'market' | 'accepted' | 'misheard' | 'passed' | 'withdrawn';

interface ExportTag {
  readonly tag: string;
  readonly condition: 'intact' | 'broken';
}

type Outright = 'by' | 'count' | 'withoutReserve' | 'donated' | 'takenIn' | 'note';

export interface PlannedLot extends Wares, Pick<LotSaid, Outright> {
  /** Pounds or ounces as typed, such as `12.5`. */
  readonly weight: string | null;
  /** The minimum in thousandths of what the lot is worth, or null. */
  readonly minimum: number | null;
  readonly tags: readonly ExportTag[];
  readonly fate: Fate;
  /** Buyers who left a bid, each with its share of the worth in thousandths. */
  readonly leftBids: readonly { readonly buyerNo: number; readonly share: number }[];
}

/** A party at the table with its lots. */
export interface PlannedBringing {
  readonly party: Party;
  readonly lots: readonly PlannedLot[];
  /** Takes dues from the proceeds instead of in cash. */
  readonly duesDeducted?: boolean;
  /** An advance handed over before the sale, in whole units. */
  readonly advance?: string;
  /** A charge or, below nothing, a credit with its reason. */
  readonly adjustment?: { readonly amount: string; readonly note: string };
}

/** What is told of a lot: only what is unusual. */
export type Told = Partial<PlannedLot> & Pick<Wares, 'goods' | 'section'>;

export function plannedLot(told: Told): PlannedLot {
  return { ...PLAIN, ...told };
}

const PLAIN = {
  by: 'piece',
  count: null,
  weight: null,
  size: '',
  grade: '',
  form: 'put_up',
  minimum: null,
  withoutReserve: false,
  donated: false,
  takenIn: '',
  tags: [],
  note: '',
  fate: 'market',
  leftBids: [],
} as const;

/** The worth of a piece, a pound, an ounce, or of the whole lot where it is sold by the lot; cents, not rounded. */
export function worthOf(lot: PlannedLot, season: Season): Decimal {
  const one = worth(lot, season);
  return lot.by === 'lot' ? one.times(new Decimal(lot.count ?? 1)) : one;
}

const CODES: Readonly<Record<string, string>> = { bobcat: 'BOB', otter: 'OTT' };

/** The officer's roll of export tags: numbers run on through a season and are never given twice. */
export interface TagRoll {
  /** So many tags for goods that need them, none for others. */
  next(goods: string, pieces: number, state?: string): ExportTag[];
}

/** A roll for one season; gaps between trappers are the officer's other customers. */
export function tagRoll(year: string, prng: Prng): TagRoll {
  const last = new Map<string, number>();
  return {
    next: (goods, pieces, state = 'MT') => {
      const code = CODES[goods];
      if (code === undefined) return [];
      const head = `US-CITES ${state} ${code} ${year}`;
      const first = (last.get(head) ?? 100) + prng.between(1, 9);
      last.set(head, first + pieces - 1);
      return Array.from({ length: pieces }, (_, place) => ({
        tag: `${head} ${String(first + place).padStart(6, '0')}`,
        condition: 'intact',
      }));
    },
  };
}
