/** What a large sale's views are put together from, of each seller number: how far it has come and what it adds to the sums. */
import { type KeptPart, keptOfSeller } from '#lib/closing/kept-parts.ts';
import { type SellerSums, sellerSums } from '#lib/closing/sums.ts';
import type { Cents } from '#lib/money.ts';
import type { Book } from '../open.ts';
import { type PayoutSeller, payoutSellersIn } from './payout-scene.ts';
import { factsOf } from './sale-facts.ts';
import type { Scope } from './scope.ts';
import { type IssuedSheet, namesOfSellers } from './sheets.ts';

export interface SellerPiece {
  readonly sellerNo: number;
  readonly names: readonly string[];
  readonly lots: number;
  /** Lots with a line of the settlement, however they came out. */
  readonly called: number;
  readonly lotsSold: number;
  /** As it would be settled now. */
  readonly netCents: Cents;
  /** The newest sheet, and whether its figures are no longer right. */
  readonly issued: {
    readonly settlementId: number;
    readonly number: number;
    readonly netCents: Cents;
    readonly changed: boolean;
  } | null;
  /** What is still to be paid to each partner; below nothing, to get back. */
  readonly owing: readonly Cents[];
  readonly sums: SellerSums;
  readonly kept: KeptPart;
}

/** Of the seller numbers of a scope, by number. */
export function sellerPieces(book: Book, saleId: number, scope: Scope): SellerPiece[] {
  const facts = factsOf(book, saleId, scope);
  const names = namesOfSellers(book, saleId, scope);
  const sellers = payoutSellersIn(book, saleId, { scope, facts });
  const goods = new Map(facts.lots.map((lot) => [lot.lotNo, lot.goods]));
  const sums = sellerSums(
    { facts, sheets: sheetsOf(sellers) },
    sellers.map(({ settled }) => settled),
  );
  return sellers.flatMap(({ sellerNo, issued, changed, accounts, file, settled }, at) => {
    const own = sums[at];
    if (!own) return [];
    const { lotsSold, netCents, lines } = settled;
    return [
      {
        ...{ sellerNo, names: names.get(sellerNo) ?? [], lots: file.lots.length, called: lines.length },
        ...{ lotsSold, netCents, owing: accounts.map(({ owingCents }) => owingCents), sums: own },
        issued: issued && issuedOf(issued, changed),
        kept: keptOfSeller(settled, { goods, charges: file.charges }),
      },
    ];
  });
}

function sheetsOf(sellers: readonly PayoutSeller[]) {
  return new Map(
    sellers.flatMap(({ sellerNo, issued }) =>
      issued ? [[sellerNo, { number: issued.number, totals: issued.sheet.totals }] as const] : [],
    ),
  );
}

function issuedOf({ settlementId, number, sheet }: IssuedSheet, changed: boolean): SellerPiece['issued'] {
  return { settlementId, number, netCents: sheet.totals.netCents, changed };
}
