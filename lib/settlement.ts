/** What each seller number is owed: rules 2 to 7 over a whole sale, in one pass over its lots. */
import type { Charge, Lot, Membership, Outcome, Sale, SaleFacts, Seller } from '#lib/facts.ts';
import { compareLotNo } from '#lib/lot-number.ts';
import { type LotLine, lotLine } from '#lib/lot-sums.ts';
import { addCents, allocate, type Cents, subtractCents, sumCents } from '#lib/money.ts';
import { membershipOf } from '#lib/terms.ts';

interface Share {
  readonly personId: string;
  readonly parts: number;
  readonly shareCents: Cents;
}

/** The settlement of one seller number. All money is whole cents; a negative net is what the seller owes. */
export interface SellerSettlement {
  readonly sellerNo: number;
  readonly membership: Membership;
  /** One line a lot with an outcome, by lot number; a withdrawn lot has a line of zeros. */
  readonly lines: readonly LotLine[];
  /** Donated lots that were sold count here too. */
  readonly lotsSold: number;
  readonly lotsPassed: number;
  /** Without donated lots. */
  readonly grossCents: Cents;
  readonly commissionCents: Cents;
  readonly lotFeesCents: Cents;
  readonly noSaleFeesCents: Cents;
  readonly sellerNumberFeeCents: Cents;
  /** Charges deducted from the settlement; those paid in cash are not in it. */
  readonly chargesCents: Cents;
  readonly netCents: Cents;
  readonly shares: readonly Share[];
}

/** What the settlement of one seller number is made from: all of it that seller's own. */
export interface SellerFacts {
  readonly sale: Pick<Sale, 'heldOn' | 'terms'>;
  readonly called: readonly { readonly lot: Lot; readonly outcome: Outcome }[];
  readonly charges: readonly Charge[];
}

/** Settles one seller number. */
export function settleSeller(seller: Seller, { sale, called, charges }: SellerFacts): SellerSettlement {
  const membership = membershipOf(seller, sale.heldOn);
  const context = { terms: sale.terms, membership };
  const lines = called
    .map(({ lot, outcome }) => lotLine(lot, outcome, context))
    .sort((a, b) => compareLotNo(a.lotNo, b.lotNo));
  const grossCents = sumCents(lines.filter((line) => !line.donated).map((line) => line.amountCents));
  const commissionCents = sumCents(lines.map((line) => line.commissionCents));
  const lotFeesCents = sumCents(lines.map((line) => line.lotFeeCents));
  const noSaleFeesCents = sumCents(lines.map((line) => line.noSaleFeeCents));
  const sellerNumberFeeCents = sale.terms.sellerNumberFeeCents;
  const chargesCents = sumCents(charges.filter(({ how }) => how === 'deducted').map(({ amountCents }) => amountCents));
  const off = addCents(commissionCents, lotFeesCents, noSaleFeesCents, sellerNumberFeeCents, chargesCents);
  const netCents = subtractCents(grossCents, off);
  return {
    sellerNo: seller.sellerNo,
    membership,
    lines,
    lotsSold: lines.filter((line) => line.outcome === 'sold').length,
    lotsPassed: lines.filter((line) => line.outcome === 'passed').length,
    grossCents,
    commissionCents,
    lotFeesCents,
    noSaleFeesCents,
    sellerNumberFeeCents,
    chargesCents,
    netCents,
    shares: sharesOf(seller, netCents),
  };
}

/** Rule 7: the net by parts, in the partners' order. */
function sharesOf({ partners }: Seller, net: Cents): Share[] {
  if (partners.length === 0) return [];
  const amounts = allocate(
    net,
    partners.map(({ parts }) => parts),
  );
  return partners.flatMap(({ personId, parts }, at) => {
    const shareCents = amounts[at];
    return shareCents === undefined ? [] : [{ personId, parts, shareCents }];
  });
}

/** Settles every seller number of a sale, also one without lots, in the order of their numbers. */
export function settleSale(facts: SaleFacts): SellerSettlement[] {
  const outcomes = new Map(facts.outcomes.map((outcome) => [outcome.lotNo, outcome]));
  const own = new Map(
    facts.sellers.map(({ sellerNo }) => [sellerNo, { called: [] as Called[], charges: [] as Charge[] }]),
  );
  for (const lot of facts.lots) {
    const outcome = outcomes.get(lot.lotNo);
    if (outcome !== undefined) ownOf(own, lot.sellerNo).called.push({ lot, outcome });
  }
  for (const charge of facts.charges) ownOf(own, charge.sellerNo).charges.push(charge);
  return [...facts.sellers]
    .sort((a, b) => a.sellerNo - b.sellerNo)
    .map((seller) => settleSeller(seller, { sale: facts.sale, ...ownOf(own, seller.sellerNo) }));
}

type Called = SellerFacts['called'][number];
type Own = { called: Called[]; charges: Charge[] };

function ownOf(own: ReadonlyMap<number, Own>, sellerNo: number): Own {
  const found = own.get(sellerNo);
  if (found === undefined) throw new RangeError(`there is no seller number ${sellerNo}`);
  return found;
}
