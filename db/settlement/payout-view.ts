/** Every seller number with how far its settlement has come, for the treasurer's table. */

import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { type Cents, negate, sumCents, ZERO } from '#lib/money/money.ts';
import type { Stage } from '#lib/sale/facts.ts';
import { splitPaid } from '#lib/seller/account.ts';
import type { Outdated } from '#lib/settlement/correction.ts';
import { decideIssueStage } from '#lib/settlement/decide-issue.ts';
import { type PayoutSeller, payoutSellers } from './payout.ts';
import { namesOfSellers } from './sheets.ts';

/** `changed`: the sums are no longer those of the sheet. `waits`: the sale has the seller wait for a buyer's money. */
export type PayoutState =
  | 'nothing_sold'
  | 'waiting'
  | 'ready'
  | 'changed'
  | 'waits'
  | 'buys_too'
  | 'to_pay'
  | 'paid'
  | 'owes';

export interface PayoutRow {
  readonly sellerNo: number;
  readonly names: readonly string[];
  readonly state: PayoutState;
  readonly lotsSold: number;
  /** Lots that have not been called. */
  readonly waiting: number;
  readonly netCents: Cents;
  /** Still to pay to the partners together; below nothing, to get from them. By the newest sheet, and where that is no longer right by what is right now. */
  /** A debt of the number was given up: what is even was not all paid. */
  readonly writtenOff: boolean;
  readonly owingCents: Cents;
  /** What a sheet that is no longer right says, and what is right now; else null. */
  readonly outdated: Outdated | null;
  /** The buyers whose money this number waits for. */
  readonly waitsFor: readonly number[];
  /** The buyer numbers under which the partners themselves still owe. */
  readonly owesAs: readonly number[];
  /** The newest issued sheet, or null. */
  readonly sheet: { readonly settlementId: number; readonly number: number } | null;
}

export interface PayoutView {
  readonly rows: readonly PayoutRow[];
  readonly issued: number;
  /** Sheets that can be issued now; 0 while the sale's stage lets none be issued. */
  readonly ready: number;
  /** Those of them that are bills, and what they come to together. */
  readonly readyBills: Many;
  /** Seller numbers with lots that have not been called. Their nets may change, so they are in neither sum. */
  readonly waiting: number;
  /** Seller numbers to whom a check can be written now. */
  readonly payable: number;
  /** The checks that would be written to them, one for each partner. */
  readonly checks: Many;
  /** Sheets that need a correction sheet. */
  readonly changed: number;
  /** What is still to be paid to sellers, and what sellers still owe; neither is below nothing. */
  readonly toPayCents: Cents;
  readonly owedCents: Cents;
}

export interface Many {
  readonly count: number;
  readonly cents: Cents;
}

export function payoutView(book: Book, sale: SaleRow): PayoutView {
  const names = namesOfSellers(book, sale.id);
  const sellers = payoutSellers(book, sale);
  const rows = sellers.map((one) => rowOf(one, names.get(one.sellerNo) ?? []));
  const open = rows.filter(({ state }) => state !== 'waiting').map(({ owingCents }) => owingCents);
  // While lots are called, somebody without any may still bring some: the book leaves their sheet for later too.
  const mayStay = ({ file }: PayoutSeller) => file.lots.length > 0 || !isCalling(sale.stage);
  const ready = sellers.filter((one, at) => !one.issued && rows[at]?.state !== 'waiting' && mayStay(one));
  const issues = decideIssueStage(sale.stage).ok ? ready : [];
  const count = (state: PayoutState) => rows.filter((row) => row.state === state).length;
  const payable = sellers.filter((_, at) => sale.stage !== 'closed' && rows[at]?.state === 'to_pay');
  return {
    rows,
    issued: rows.filter(({ sheet }) => sheet !== null).length,
    ready: issues.length,
    readyBills: many(issues.map((one) => negate(sumCents(owingOf(one))))),
    waiting: count('waiting'),
    payable: payable.length,
    checks: many(payable.flatMap(owingOf)),
    changed: count('changed'),
    toPayCents: sumCents(open.filter((owing) => owing > 0)),
    owedCents: sumCents(open.filter((owing) => owing < 0).map(negate)),
  };
}

/** What is still to be paid to each partner; below nothing, to get back. */
function owingOf({ accounts }: PayoutSeller): Cents[] {
  return accounts.map(({ owingCents }) => owingCents);
}

/** Those of the amounts that are more than nothing. */
function many(amounts: readonly Cents[]): Many {
  const some = amounts.filter((amount) => amount > 0);
  return { count: some.length, cents: sumCents(some) };
}

/** Once the sale is settling, no more lots come in. */
function isCalling(stage: Stage): boolean {
  return stage !== 'settling' && stage !== 'closed';
}

/** A number with a sheet shows what the sheet says while it is right, and what is right now once it is not. */
function rowOf(one: PayoutSeller, names: readonly string[]): PayoutRow {
  const { sellerNo, issued, settled, waitsFor } = one;
  const waiting = one.file.lots.length - settled.rows.length;
  return {
    ...{ sellerNo, names, lotsSold: settled.lotsSold, waiting, waitsFor, state: stateOf(one, waiting) },
    owesAs: one.owesAsBuyer.map(({ buyerNo }) => buyerNo),
    netCents: issued && !one.changed ? issued.sheet.totals.netCents : settled.netCents,
    outdated: one.outdated,
    owingCents: sumCents(owingOf(one)),
    writtenOff: splitPaid(one.payments).givenUpCents !== ZERO,
    sheet: issued && { settlementId: issued.settlementId, number: issued.number },
  };
}

function stateOf(one: PayoutSeller, waiting: number): PayoutState {
  if (!one.issued) {
    if (waiting > 0) return 'waiting';
    return one.settled.lotsSold === 0 ? 'nothing_sold' : 'ready';
  }
  if (one.changed) return 'changed';
  const owing = owingOf(one);
  if (owing.some((cents) => cents > 0)) {
    if (one.waitsFor.length > 0) return 'waits';
    return one.owesAsBuyer.length > 0 ? 'buys_too' : 'to_pay';
  }
  return owing.some((cents) => cents < 0) ? 'owes' : 'paid';
}
