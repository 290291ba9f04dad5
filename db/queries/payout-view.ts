/** Every seller number with how far its settlement has come, for the treasurer's table. */
import type { SaleFacts, Stage } from '#lib/facts.ts';
import { type Cents, negate, sumCents } from '#lib/money.ts';
import { type SellerSettlement, settleSale } from '#lib/settlement.ts';
import { decideIssueStage } from '#lib/sheet/decide-issue.ts';
import type { Book } from '../open.ts';
import type { SaleRow } from './find.ts';
import { saleFacts } from './sale-facts.ts';
import { type IssuedSheet, issuedSheets, namesOfSellers } from './sheets.ts';

export type PayoutState = 'issued' | 'nothing_sold' | 'waiting' | 'ready';

export interface PayoutRow {
  readonly sellerNo: number;
  readonly names: readonly string[];
  readonly state: PayoutState;
  readonly lotsSold: number;
  /** Lots still to be called. */
  readonly waiting: number;
  readonly netCents: Cents;
  /** The issued sheet, or null. */
  readonly sheet: { readonly settlementId: number; readonly number: number } | null;
}

export interface PayoutView {
  readonly rows: readonly PayoutRow[];
  readonly issued: number;
  /** Sheets that can be issued now; 0 while the sale's stage lets none be issued. */
  readonly ready: number;
  /** Seller numbers with lots still to be called. Their nets will change, so they are in neither sum. */
  readonly waiting: number;
  /** What is to be paid to sellers, and what sellers owe; neither is below nothing. */
  readonly toPayCents: Cents;
  readonly owedCents: Cents;
}

export function payoutView(book: Book, sale: Pick<SaleRow, 'id' | 'stage'>): PayoutView {
  const facts = saleFacts(book, sale.id);
  const names = namesOfSellers(book, sale.id);
  const waiting = isCalling(sale.stage) ? waitingBySeller(facts) : new Map<number, number>();
  const sheets = new Map(issuedSheets(book, sale.id).map((issued) => [issued.sellerNo, issued]));
  const rows = settleSale(facts).map((settled) => {
    const { sellerNo } = settled;
    return rowOf(settled, {
      names: names.get(sellerNo) ?? [],
      waiting: waiting.get(sellerNo) ?? 0,
      issued: sheets.get(sellerNo),
    });
  });
  const settled = rows.filter(({ state }) => state !== 'waiting').map(({ netCents }) => netCents);
  const withLots = new Set(facts.lots.map(({ sellerNo }) => sellerNo));
  // While lots are called, somebody without any may still bring some: the book leaves their sheet for later too.
  const mayStay = (sellerNo: number) => withLots.has(sellerNo) || !isCalling(sale.stage);
  const ready = rows.filter(({ state, sellerNo }) => state !== 'issued' && state !== 'waiting' && mayStay(sellerNo));
  return {
    rows,
    issued: rows.filter(({ state }) => state === 'issued').length,
    ready: decideIssueStage(sale.stage).ok ? ready.length : 0,
    waiting: rows.filter(({ state }) => state === 'waiting').length,
    toPayCents: sumCents(settled.filter((net) => net > 0)),
    owedCents: sumCents(settled.filter((net) => net < 0).map(negate)),
  };
}

/** Once the sale is settling, a lot that was not called stays with its seller and nothing waits for it. */
function isCalling(stage: Stage): boolean {
  return stage !== 'settling' && stage !== 'closed';
}

interface Around {
  readonly names: readonly string[];
  readonly waiting: number;
  readonly issued: IssuedSheet | undefined;
}

/** An issued sheet shows what was handed over, whatever was corrected after. */
function rowOf(settled: SellerSettlement, { names, waiting, issued }: Around): PayoutRow {
  const { sellerNo, lotsSold } = settled;
  const netCents = issued ? issued.sheet.totals.netCents : settled.netCents;
  const sheet = issued ? { settlementId: issued.settlementId, number: issued.number } : null;
  return { sellerNo, names, lotsSold, waiting, netCents, sheet, state: stateOf(settled, { waiting, issued }) };
}

function stateOf(settled: SellerSettlement, { waiting, issued }: Pick<Around, 'waiting' | 'issued'>): PayoutState {
  if (issued) return 'issued';
  if (waiting > 0) return 'waiting';
  return settled.lotsSold === 0 ? 'nothing_sold' : 'ready';
}

function waitingBySeller({ lots, outcomes }: SaleFacts): Map<number, number> {
  const called = new Set(outcomes.map(({ lotNo }) => lotNo));
  const waiting = new Map<number, number>();
  for (const { lotNo, sellerNo } of lots) {
    if (!called.has(lotNo)) waiting.set(sellerNo, (waiting.get(sellerNo) ?? 0) + 1);
  }
  return waiting;
}
