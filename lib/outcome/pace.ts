/** How fast a sale goes, from the times at which its lots were called. */
import { Decimal } from '#lib/money/decimal.ts';
import { type Cents, cents, showMoney } from '#lib/money/money.ts';

/** The pace is taken from so many lots at most, so that the lunch break does not slow the afternoon down. */
export const LOTS_LOOKED_AT = 40;
const MINUTE_MS = 60_000;
/** A longer gap between two lots is a break and not part of the pace. */
const BREAK_MS = 10 * MINUTE_MS;

export interface Pace {
  readonly lotsAnHour: number;
  /** Minutes until the lots that are left are called at this pace, rounded up. */
  readonly minutesLeft: number;
  /** When the last lot is called at this pace, in milliseconds; counted from the newest lot. */
  readonly doneAtMs: number;
}

/**
 * The pace of the newest lots; null while fewer than two were called.
 * @param calledAtMs times in milliseconds, in any order.
 */
export function paceOf(calledAtMs: readonly number[], lotsLeft: number): Pace | null {
  const newest = [...calledAtMs].sort((a, b) => b - a).slice(0, LOTS_LOOKED_AT);
  let workingMs = 0;
  let gaps = 0;
  for (const [at, time] of newest.entries()) {
    const before = newest[at + 1];
    if (before === undefined || time - before > BREAK_MS) continue;
    workingMs += time - before;
    gaps += 1;
  }
  if (gaps === 0 || workingMs === 0) return null;
  const msALot = workingMs / gaps;
  return {
    lotsAnHour: Math.round((60 * MINUTE_MS) / msALot),
    minutesLeft: Math.ceil((lotsLeft * msALot) / MINUTE_MS),
    doneAtMs: Math.round((newest[0] ?? 0) + lotsLeft * msALot),
  };
}

/** The lowest and the highest price that goods brought at the newest earlier sale. */
export interface PriceBounds {
  readonly lowCents: Cents;
  readonly highCents: Cents;
}

/**
 * The prices between which nobody is asked: from a tenth of the low to three times the high, both included.
 * How wide the guard is, is common practice, no source.
 */
export function usualPrices({ lowCents, highCents }: PriceBounds): PriceBounds {
  const tenth = new Decimal(lowCents).dividedBy(10).ceil();
  return { lowCents: cents(tenth.toNumber()), highCents: cents(new Decimal(highCents).times(3).toNumber()) };
}

/** A range for people: `8.00 to 14.50`, or one price where both ends are the same. */
export function boundsInWords({ lowCents, highCents }: PriceBounds): string {
  return lowCents === highCents ? showMoney(lowCents) : `${showMoney(lowCents)} to ${showMoney(highCents)}`;
}
