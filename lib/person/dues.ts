/** Dues taken at the check-in table: to which day they are paid, and when they cannot be taken as they were said. */

import { addDays, parseDate, shortDate } from '#lib/date/date.ts';
import { type Cents, formatMoney } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { ChargeHow, Method, Stage } from '#lib/sale/facts.ts';

/** From the proceeds of a seller number, or by one of the ways in which money is handed over at the table. */
export type DuesHow = ChargeHow | Extract<Method, 'check' | 'card'>;

/** Whether money is handed over now; `deducted` is taken from what the lots bring. */
export function isHandedOver(how: DuesHow): how is Exclude<DuesHow, 'deducted'> {
  return how !== 'deducted';
}

export interface DuesRule {
  readonly heldOn: string;
  /** The day to which the association takes dues at this sale, or null where they run for a year. */
  readonly duesUntil: string | null;
}

/**
 * The day to which dues taken now are paid, as an ISO 8601 date: the sale's own day for it, or a year from the day of
 * the sale; for somebody whose dues reach beyond that already, a year from where they end.
 */
export function duesPaidUntil({ heldOn, duesUntil }: DuesRule, memberUntil: string | null): string {
  const proposed = duesUntil ?? yearAfter(heldOn);
  if (memberUntil === null || memberUntil < heldOn) return proposed;
  return proposed > memberUntil ? proposed : yearAfter(memberUntil);
}

/** The same day a year later; 29 February gives the 28th. Throws a RangeError where `date` is not a date. */
function yearAfter(date: string): string {
  const year = Number.parseInt(date.slice(0, 4), 10) + 1;
  const same = `${year}${date.slice(4)}`;
  return parseDate(same).ok ? same : addDays(`${year}-03-01`, -1);
}

export interface ProposedDues {
  readonly name: string;
  readonly stage: Stage;
  readonly heldOn: string;
  readonly how: DuesHow;
  readonly hasNumber: boolean;
  readonly memberUntil: string | null;
  readonly paidUntil: string;
}

export function decideDues(proposed: ProposedDues): Result<null> {
  const { name, stage, heldOn, how, hasNumber, memberUntil, paidUntil } = proposed;
  if (stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
  if (how === 'deducted' && !hasNumber) {
    const message = `${name} has no seller number to take dues from: give the number first, or take them in cash, by check or by card.`;
    return refuse('missing', message, 'how');
  }
  if (paidUntil < heldOn) {
    const message = `Dues until ${shortDate(paidUntil)} make nobody a member on ${shortDate(heldOn)}: enter the day of the sale or a later one.`;
    return refuse('malformed', message, 'memberUntil');
  }
  if (memberUntil !== null && paidUntil <= memberUntil) {
    const message = `The dues of ${name} are paid until ${shortDate(memberUntil)} already: enter a later day, or take none.`;
    return refuse('already', message, 'memberUntil');
  }
  return accept(null);
}

export interface DuesToVoid {
  readonly name: string;
  readonly stage: Stage;
  readonly voided: boolean;
  /** Dues of the same person were taken after these and still stand. */
  readonly laterStand: boolean;
}

export function decideVoidDues({ name, stage, voided, laterStand }: DuesToVoid): Result<null> {
  if (stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'duesId');
  if (voided) return refuse('already', 'These dues were taken back already.', 'duesId');
  if (laterStand) {
    return refuse('conflict', `Dues of ${name} were taken after these: take the newest back first.`, 'duesId');
  }
  return accept(null);
}

export interface LateDues {
  readonly saleName: string;
  readonly name: string;
  /** What the seller numbers get, without these dues and with them. */
  readonly changes: readonly { readonly sellerNo: number; readonly beforeCents: Cents; readonly afterCents: Cents }[];
}

/** Dues taken at a sale that is being settled change what it pays only where somebody has seen the difference. */
export function decideLateDues({ saleName, name, changes }: LateDues): Result<null> {
  if (changes.length === 0) return accept(null);
  const each = changes.map(
    (one) =>
      `seller number ${one.sellerNo} gets ${formatMoney(one.afterCents)} instead of ${formatMoney(one.beforeCents)}`,
  );
  const message = `${saleName} was held with the dues that stood then. If these dues of ${name} count there, ${each.join(', ')}. Do they count there?`;
  return refuse('needs_answer', message, 'counts');
}
