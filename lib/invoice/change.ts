/** What a correcting invoice has otherwise than the one before it: each lot and each sum before, after and between. */
import { longDate } from '#lib/date/date.ts';
import { compareLotNo } from '#lib/lot/number.ts';
import { type Cents, subtractCents, ZERO } from '#lib/money/money.ts';
import { blank, figure } from '#lib/settlement/spelling.ts';
import type { ChangedLot, ChangedSum, InvoiceCorrection, InvoiceLot, InvoicePaper, InvoiceTotals } from './model.ts';

/** A row of an invoice without its tags, which make no bill untrue. */
export type BilledLot = Omit<InvoiceLot, 'tags'>;

/** The part of an invoice that a later change can make untrue. Payments are no part of it: they change no bill. */
export interface Billed extends Pick<InvoicePaper, 'exemptNo'> {
  readonly lots: readonly BilledLot[];
  readonly totals: Omit<InvoiceTotals, 'paidCents' | 'owingCents'>;
}

export function stillTrue(issued: Billed, now: Billed): boolean {
  const sameSums = changedSums(issued, now).every(({ difference }) => difference.cents === ZERO);
  return sameSums && changedLots(issued, now).length === 0 && sameExemption(issued, now);
}

export function correctionOf(before: InvoicePaper, now: Billed): InvoiceCorrection {
  const number = before.number ?? 0;
  const { exemptNo } = now;
  const exemption = exemptNo === null ? 'pays sales tax now' : `is exempt from sales tax now: ${exemptNo}`;
  return {
    number,
    words: `Corrects invoice ${number} of ${longDate(before.issuedOn)}, and takes its place.`,
    lots: changedLots(before, now),
    sums: changedSums(before, now),
    remarks: sameExemption(before, now) ? [] : [`The buyer ${exemption}.`],
  };
}

function sameExemption(before: Billed, now: Billed): boolean {
  return before.exemptNo === now.exemptNo;
}

function changedLots(before: Billed, now: Billed): ChangedLot[] {
  const old = new Map(before.lots.map((lot) => [lot.lotNo, lot]));
  const fresh = new Map(now.lots.map((lot) => [lot.lotNo, lot]));
  return [...new Set([...old.keys(), ...fresh.keys()])]
    .sort(compareLotNo)
    .flatMap((lotNo) => changedLot(old.get(lotNo), fresh.get(lotNo)));
}

function changedLot(before: BilledLot | undefined, after: BilledLot | undefined): ChangedLot[] {
  const lot = after ?? before;
  if (lot === undefined || (before && after && sameLot(before, after))) return [];
  const was = before?.amount.cents ?? ZERO;
  const is = after?.amount.cents ?? ZERO;
  const what = before === undefined ? 'added' : after === undefined ? 'taken_off' : 'changed';
  return [
    {
      lotNo: lot.lotNo,
      what,
      words: `${lot.goods}, ${what.replace('_', ' ')}`,
      beforeWords: before ? `${before.quantity.words} at ${before.price.words}` : '',
      afterWords: after ? `${after.quantity.words} at ${after.price.words}` : '',
      before: before ? figure(was) : blank(ZERO),
      after: after ? figure(is) : blank(ZERO),
      difference: figure(subtractCents(is, was)),
    },
  ];
}

function sameLot(a: BilledLot, b: BilledLot): boolean {
  return (
    a.goods === b.goods &&
    a.quantity.words === b.quantity.words &&
    a.price.words === b.price.words &&
    a.amount.cents === b.amount.cents &&
    a.premium.cents === b.premium.cents
  );
}

function changedSums({ totals: before }: Billed, { totals: now }: Billed): ChangedSum[] {
  return [
    changedSum('Lots', before.amountCents, now.amountCents),
    changedSum('Buyer’s premium', before.premiumCents, now.premiumCents),
    changedSum('Sales tax', before.taxCents, now.taxCents),
    changedSum('Total', before.totalCents, now.totalCents),
  ];
}

function changedSum(label: string, before: Cents, after: Cents): ChangedSum {
  const difference = figure(subtractCents(after, before));
  return { label, before: figure(before), after: figure(after), difference };
}
