/** One seller number at payout: its sheet, what has changed since, each partner's account, and what was paid. */
import { formatMoney, negate, showMoney } from '#lib/money.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { asPrinted } from '#lib/payout/correction.ts';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import { settlementSheet } from '#lib/sheet/settlement-sheet.ts';
import { logHead } from '../log.ts';
import type { Book } from '../open.ts';
import { type CheckRow, checksOfSale } from './checks.ts';
import type { SaleRow } from './find.ts';
import { payoutSeller, personIdOf } from './payout-scene.ts';
import { sheetsOfSeller } from './sheets.ts';

export interface PartnerView {
  readonly personId: number;
  readonly name: string;
  readonly share: string;
  readonly paid: string;
  /** What is due now, or null where the partner is even; `amount` is as it would be typed. */
  readonly due: { readonly direction: 'in' | 'out'; readonly amount: string } | null;
}

export interface PayoutSellerView {
  readonly sellerNo: number;
  readonly issued: boolean;
  readonly changed: boolean;
  readonly sheet: SettlementSheet;
  /** What a correction says has changed; null where the newest sheet is a first one. */
  readonly correction: ListPaper | null;
  /** The numbers of the older sheets, the oldest first. */
  readonly older: readonly number[];
  readonly waitsFor: readonly number[];
  readonly partners: readonly PartnerView[];
  readonly checks: readonly CheckRow[];
}

/** Undefined where the sale has no such number. `drawnOn` is an ISO 8601 date. */
export function payoutSellerView(
  book: Book,
  sale: SaleRow,
  { sellerNo, drawnOn }: { readonly sellerNo: number; readonly drawnOn: string },
): PayoutSellerView | undefined {
  const found = payoutSeller(book, sale, sellerNo);
  if (!found) return undefined;
  const { issued, file, changed, waitsFor, accounts } = found;
  const preview = () => settlementSheet(file, { number: null, issuedOn: drawnOn, head: logHead(book) });
  const { sheet, report } = issued ? asPrinted(issued) : { sheet: preview(), report: null };
  const names = new Map(sheet.shares.map(({ personId, name }) => [personId, name]));
  return {
    ...{ sellerNo, issued: issued !== null, changed, sheet, waitsFor },
    correction: report,
    older: sheetsOfSeller(book, sale.id, sellerNo)
      .slice(0, -1)
      .map(({ number }) => number),
    partners: accounts.map(({ personId, shareCents, paidCents, owingCents }) => ({
      personId: personIdOf(book, sale.id, personId) ?? 0,
      name: names.get(personId) ?? personId,
      share: showMoney(shareCents),
      paid: showMoney(paidCents),
      due:
        owingCents === 0
          ? null
          : owingCents > 0
            ? { direction: 'out', amount: formatMoney(owingCents) }
            : { direction: 'in', amount: formatMoney(negate(owingCents)) },
    })),
    checks: checksOfSale(book, sale.id).filter((check) => check.sellerNo === sellerNo),
  };
}
