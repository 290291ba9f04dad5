/** What a party brings to a sale, before it is called. */
import type { LotSaid } from '#lib/lot/fields.ts';
import type { Wares } from './market.ts';
import type { Party } from './sellers.ts';

/**
 * How the hammer falls: as the market has it; with the seller taking less than the minimum; written down wrongly at
 * first; passed without a bid; or taken home before it is called.
 */
export type Fate = 'market' | 'accepted' | 'misheard' | 'passed' | 'withdrawn';

export interface ExportTag {
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
export interface Bringing {
  readonly party: Party;
  readonly lots: readonly PlannedLot[];
  /** Takes dues from the proceeds instead of in cash. */
  readonly duesDeducted?: boolean;
  /** An advance handed over before the sale, in whole units. */
  readonly advance?: string;
  /** A charge or, below nothing, a credit with its reason. */
  readonly adjustment?: { readonly amount: string; readonly note: string };
}

type Told = Partial<PlannedLot> & Pick<Wares, 'goods' | 'section'>;

/** A lot of which only what is unusual is told. */
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
