/** Every seller number with how far its settlement has come, for the treasurer's table. */
import type { Stage } from '#lib/facts.ts';
import { type Cents, negate, sumCents } from '#lib/money.ts';
import { decideIssueStage } from '#lib/sheet/decide-issue.ts';
import type { Book } from '../open.ts';
import type { SaleRow } from './find.ts';
import { keptUntilLine } from './kept.ts';
import { type PayoutSeller, payoutSellers } from './payout-scene.ts';
import { saleFacts } from './sale-facts.ts';
import { namesOfSellers } from './sheets.ts';

/** `changed`: the sums are no longer those of the sheet. `waits`: the sale has the seller wait for a buyer's money. */
export type PayoutState = 'nothing_sold' | 'waiting' | 'ready' | 'changed' | 'waits' | 'to_pay' | 'paid' | 'owes';

export interface PayoutRow {
  readonly sellerNo: number;
  readonly names: readonly string[];
  readonly state: PayoutState;
  readonly lotsSold: number;
  /** Lots still to be called. */
  readonly waiting: number;
  readonly netCents: Cents;
  /** Still to pay to the partners together; below nothing, to get from them. Of what the newest sheet says. */
  readonly owingCents: Cents;
  /** The buyers whose money this number waits for. */
  readonly waitsFor: readonly number[];
  /** The newest issued sheet, or null. */
  readonly sheet: { readonly settlementId: number; readonly number: number } | null;
}

type PaidSale = Pick<SaleRow, 'id' | 'stage' | 'sellersWait'>;

export interface PayoutView {
  readonly rows: readonly PayoutRow[];
  readonly issued: number;
  /** Sheets that can be issued now; 0 while the sale's stage lets none be issued. */
  readonly ready: number;
  /** Seller numbers with lots still to be called. Their nets will change, so they are in neither sum. */
  readonly waiting: number;
  /** Seller numbers to whom a check can be written now. */
  readonly payable: number;
  /** Sheets that need a correction sheet. */
  readonly changed: number;
  /** What is still to be paid to sellers, and what sellers still owe; neither is below nothing. */
  readonly toPayCents: Cents;
  readonly owedCents: Cents;
}

/** Kept until the log moves. */
export function payoutView(book: Book, sale: PaidSale): PayoutView {
  return keptUntilLine(book, `payout ${sale.id}`, () => payoutNow(book, sale));
}

function payoutNow(book: Book, sale: PaidSale): PayoutView {
  const facts = saleFacts(book, sale.id);
  const names = namesOfSellers(book, sale.id);
  const calling = isCalling(sale.stage);
  // A lot that was called, however it came out, has a line of the settlement.
  const rows = payoutSellers(book, sale, facts).map((one) =>
    rowOf(one, {
      names: names.get(one.sellerNo) ?? [],
      waiting: calling ? one.file.lots.length - one.settled.lines.length : 0,
    }),
  );
  const open = rows.filter(({ state }) => state !== 'waiting').map(({ owingCents }) => owingCents);
  const withLots = new Set(facts.lots.map(({ sellerNo }) => sellerNo));
  // While lots are called, somebody without any may still bring some: the book leaves their sheet for later too.
  const mayStay = (sellerNo: number) => withLots.has(sellerNo) || !isCalling(sale.stage);
  const ready = rows.filter((row) => row.sheet === null && row.state !== 'waiting' && mayStay(row.sellerNo));
  const count = (state: PayoutState) => rows.filter((row) => row.state === state).length;
  return {
    rows,
    issued: rows.filter(({ sheet }) => sheet !== null).length,
    ready: decideIssueStage(sale.stage).ok ? ready.length : 0,
    waiting: count('waiting'),
    payable: sale.stage === 'closed' ? 0 : count('to_pay'),
    changed: count('changed'),
    toPayCents: sumCents(open.filter((owing) => owing > 0)),
    owedCents: sumCents(open.filter((owing) => owing < 0).map(negate)),
  };
}

/** Once the sale is settling, a lot that was not called stays with its seller and nothing waits for it. */
function isCalling(stage: Stage): boolean {
  return stage !== 'settling' && stage !== 'closed';
}

interface Around {
  readonly names: readonly string[];
  readonly waiting: number;
}

/** A number with a sheet shows what was handed over, whatever was corrected after. */
function rowOf(one: PayoutSeller, { names, waiting }: Around): PayoutRow {
  const { sellerNo, issued, settled, waitsFor } = one;
  const sheet = issued ? { settlementId: issued.settlementId, number: issued.number } : null;
  const { netCents } = issued ? issued.sheet.totals : settled;
  const owingCents = sumCents(one.accounts.map((account) => account.owingCents));
  const { lotsSold } = settled;
  return { sellerNo, names, lotsSold, waiting, netCents, owingCents, waitsFor, sheet, state: stateOf(one, waiting) };
}

function stateOf({ issued, changed, settled, waitsFor, accounts }: PayoutSeller, waiting: number): PayoutState {
  if (!issued) {
    if (waiting > 0) return 'waiting';
    return settled.lotsSold === 0 ? 'nothing_sold' : 'ready';
  }
  if (changed) return 'changed';
  const toPay = accounts.some(({ owingCents }) => owingCents > 0);
  if (toPay) return waitsFor.length > 0 ? 'waits' : 'to_pay';
  return accounts.some(({ owingCents }) => owingCents < 0) ? 'owes' : 'paid';
}
