/** Every seller number with how far its settlement has come, for the treasurer's table. */
import type { Stage } from '#lib/facts.ts';
import { type Cents, negate, sumCents } from '#lib/money.ts';
import { decideIssueStage } from '#lib/sheet/decide-issue.ts';
import type { Book } from '../open.ts';
import type { BuyerPiece } from './buyer-pieces.ts';
import type { SaleRow } from './find.ts';
import { keptUntilLine } from './kept.ts';
import { type Parties, partiesOf } from './parties.ts';
import type { SellerPiece } from './seller-pieces.ts';

/** `changed`: the sums are no longer those of the sheet. `waits`: the sale has the seller wait for a buyer's money. */
export type PayoutState = 'nothing_sold' | 'waiting' | 'ready' | 'changed' | 'waits' | 'to_pay' | 'paid' | 'owes';

export interface PayoutRow {
  readonly sellerNo: number;
  readonly names: readonly string[];
  readonly state: PayoutState;
  readonly lotsSold: number;
  /** Lots that have not been called. */
  readonly waiting: number;
  readonly netCents: Cents;
  /** Still to pay to the partners together; below nothing, to get from them. Of what the newest sheet says. */
  readonly owingCents: Cents;
  /** The buyers whose money this number waits for. */
  readonly waitsFor: readonly number[];
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

/** Kept until the log moves. */
export function payoutView(book: Book, sale: SaleRow): PayoutView {
  return keptUntilLine(book, `payout ${sale.id}`, () => payoutOf(sale, partiesOf(book, sale)));
}

function payoutOf(sale: Pick<SaleRow, 'stage' | 'sellersWait'>, { sellers, buyers }: Parties): PayoutView {
  const calling = isCalling(sale.stage);
  const waits = sale.sellersWait ? buyersOwing(buyers) : new Map<number, number[]>();
  const rows = sellers.map((one) =>
    rowOf(one, { waiting: one.lots - one.called, waitsFor: waits.get(one.sellerNo) ?? [] }),
  );
  const open = rows.filter(({ state }) => state !== 'waiting').map(({ owingCents }) => owingCents);
  // While lots are called, somebody without any may still bring some: the book leaves their sheet for later too.
  const mayStay = ({ lots }: SellerPiece) => lots > 0 || !calling;
  const ready = sellers.filter((one, at) => !one.issued && rows[at]?.state !== 'waiting' && mayStay(one));
  const issues = decideIssueStage(sale.stage).ok ? ready : [];
  const count = (state: PayoutState) => rows.filter((row) => row.state === state).length;
  const payable = sellers.filter((_, at) => sale.stage !== 'closed' && rows[at]?.state === 'to_pay');
  return {
    rows,
    issued: rows.filter(({ sheet }) => sheet !== null).length,
    ready: issues.length,
    readyBills: many(issues.map(({ owing }) => negate(sumCents(owing)))),
    waiting: count('waiting'),
    payable: payable.length,
    checks: many(payable.flatMap(({ owing }) => owing)),
    changed: count('changed'),
    toPayCents: sumCents(open.filter((owing) => owing > 0)),
    owedCents: sumCents(open.filter((owing) => owing < 0).map(negate)),
  };
}

/** Those of the amounts that are more than nothing. */
function many(amounts: readonly Cents[]): Many {
  const some = amounts.filter((amount) => amount > 0);
  return { count: some.length, cents: sumCents(some) };
}

/** The buyers who still owe for lots of each seller number. */
function buyersOwing(buyers: readonly BuyerPiece[]): Map<number, number[]> {
  const waits = new Map<number, number[]>();
  for (const { head, sellerNos } of buyers) {
    if (head.owingCents <= 0) continue;
    for (const sellerNo of sellerNos) waits.set(sellerNo, [...(waits.get(sellerNo) ?? []), head.buyerNo]);
  }
  return waits;
}

/** Once the sale is settling, no more lots come in. */
function isCalling(stage: Stage): boolean {
  return stage !== 'settling' && stage !== 'closed';
}

interface Around {
  readonly waiting: number;
  readonly waitsFor: readonly number[];
}

/** A number with a sheet shows what was handed over, whatever was corrected after. */
function rowOf(one: SellerPiece, { waiting, waitsFor }: Around): PayoutRow {
  const { sellerNo, names, issued, lotsSold, owing } = one;
  const sheet = issued && { settlementId: issued.settlementId, number: issued.number };
  const netCents = issued ? issued.netCents : one.netCents;
  const state = stateOf(one, { waiting, waitsFor });
  return { sellerNo, names, lotsSold, waiting, netCents, owingCents: sumCents(owing), waitsFor, sheet, state };
}

function stateOf({ issued, lotsSold, owing }: SellerPiece, { waiting, waitsFor }: Around): PayoutState {
  if (!issued) {
    if (waiting > 0) return 'waiting';
    return lotsSold === 0 ? 'nothing_sold' : 'ready';
  }
  if (issued.changed) return 'changed';
  if (owing.some((cents) => cents > 0)) return waitsFor.length > 0 ? 'waits' : 'to_pay';
  return owing.some((cents) => cents < 0) ? 'owes' : 'paid';
}
