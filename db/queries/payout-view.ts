/** Every seller number with how far its settlement has come, for the treasurer's table. */
import type { SaleFacts } from '#lib/facts.ts';
import { type Cents, negate, sumCents } from '#lib/money.ts';
import { type SellerSettlement, settleSale } from '#lib/settlement.ts';
import type { Book } from '../open.ts';
import { saleFacts } from './sale-facts.ts';
import { type IssuedSheet, issuedSheets, namesOfSellers } from './sheets.ts';

export type PayoutState = 'issued' | 'nothing_sold' | 'waiting' | 'ready';

export interface PayoutRow {
  readonly sellerNo: number;
  readonly names: readonly string[];
  readonly state: PayoutState;
  readonly lotsSold: number;
  /** Lots that were not called yet. */
  readonly waiting: number;
  readonly netCents: Cents;
  /** The issued sheet, or null. */
  readonly sheet: { readonly settlementId: number; readonly number: number } | null;
}

export interface PayoutView {
  readonly rows: readonly PayoutRow[];
  readonly issued: number;
  readonly ready: number;
  /** What is to be paid to sellers, and what sellers owe; neither is below nothing. */
  readonly toPayCents: Cents;
  readonly owedCents: Cents;
}

export function payoutView(book: Book, saleId: number): PayoutView {
  const facts = saleFacts(book, saleId);
  const names = namesOfSellers(book, saleId);
  const waiting = waitingBySeller(facts);
  const sheets = new Map(issuedSheets(book, saleId).map((issued) => [issued.sellerNo, issued]));
  const rows = settleSale(facts).map((settled) => {
    const { sellerNo } = settled;
    return rowOf(settled, {
      names: names.get(sellerNo) ?? [],
      waiting: waiting.get(sellerNo) ?? 0,
      issued: sheets.get(sellerNo),
    });
  });
  return {
    rows,
    issued: rows.filter(({ state }) => state === 'issued').length,
    ready: rows.filter(({ state }) => state === 'ready' || state === 'nothing_sold').length,
    toPayCents: sumCents(rows.map(({ netCents }) => netCents).filter((net) => net > 0)),
    owedCents: sumCents(rows.filter(({ netCents }) => netCents < 0).map(({ netCents }) => negate(netCents))),
  };
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
