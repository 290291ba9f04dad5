/**
 * The return to the wildlife agency: one row for each lot that was sold. The columns are those that State rules ask a
 * fur buyer's record for: Ohio R.C. 1533.24; 040-30 Wyo. Code R. § 30-6; 7 Del. C. § 532; 3 CSR 10-10.715 (Missouri,
 * proposed text): date, seller with address and licence, kinds and numbers, price each, tag numbers, State and county.
 * Nobody can say the county yet, so its place stays empty: the association's own section is no county.
 */
import { longDate } from '#lib/date/date.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { compareLotNo } from '#lib/lot/number.ts';
import { type Cents, formatMoney, formatWeight } from '#lib/money/money.ts';
import {
  cell,
  type ListCell,
  type ListPaper,
  type ListTable,
  listPaper,
  NO_ADVICE,
  NO_COUNTY,
} from '#lib/paper/list.ts';
import { countWords } from '#lib/result/text.ts';
import type { Lot, Outcome } from '#lib/sale/facts.ts';
import { clean, priceFor, quantityFor } from '#lib/settlement/spelling.ts';
import {
  type AfterwardsFacts,
  buyerParties,
  bySeller,
  type PartyWords,
  sellerParties,
  tagsInWords,
} from './after-sale.ts';

export const RETURN_COLUMNS = [
  ...['date', 'seller', 'address', 'licence', 'lot_no', 'goods', 'scientific_name', 'count', 'weight', 'by', 'price'],
  ...['amount', 'tags', 'state', 'county', 'buyer', 'buyer_licence'],
] as const;

interface SoldLot {
  readonly lot: Lot;
  readonly outcome: Outcome & { readonly priceCents: Cents };
}

function soldLots({ facts }: AfterwardsFacts): SoldLot[] {
  const outcomes = new Map(facts.outcomes.map((outcome) => [outcome.lotNo, outcome]));
  return [...facts.lots]
    .sort((a, b) => compareLotNo(a.lotNo, b.lotNo))
    .flatMap((lot) => {
      const outcome = outcomes.get(lot.lotNo);
      const priceCents = outcome?.priceCents ?? null;
      return outcome?.kind === 'sold' && priceCents !== null ? [{ lot, outcome: { ...outcome, priceCents } }] : [];
    });
}

export function agencyReturnRows(after: AfterwardsFacts): string[][] {
  const own = lookUp(after);
  return soldLots(after).map(({ lot, outcome }) => {
    const { seller, buyer, kind, tags, state } = own(lot, outcome);
    const weight = lot.weightThousandths === null ? '' : formatWeight(lot.weightThousandths);
    return [
      ...[after.facts.sale.heldOn, seller?.names ?? '', seller?.address ?? '', seller?.licence ?? '', lot.lotNo],
      ...[clean(kind?.name ?? lot.goods), clean(kind?.scientificName ?? ''), String(lot.count ?? '')],
      ...[weight, lot.by, formatMoney(outcome.priceCents), formatMoney(lotAmount(outcome.priceCents, lot))],
      ...[tags.join('; '), state, '', buyer?.names ?? '', buyer?.licence ?? ''],
    ];
  });
}

function lookUp(after: AfterwardsFacts) {
  const { facts, takenIn } = after;
  const [sellers, buyers, tags] = [sellerParties(after), buyerParties(after), tagsInWords(after)];
  const goods = new Map(facts.goods.map((kind) => [kind.goods, kind]));
  return (lot: Lot, { buyerNo }: Outcome) => ({
    seller: sellers.get(lot.sellerNo),
    buyer: buyerNo === null ? undefined : buyers.get(buyerNo),
    kind: goods.get(lot.goods),
    tags: tags.get(lot.lotNo) ?? [],
    state: takenIn.get(lot.lotNo) || facts.sale.region,
  });
}

/** The same on paper, by seller: who they are stands once above what they sold. */
export function agencyReturn(after: AfterwardsFacts): ListPaper {
  const lots = soldLots(after);
  return listPaper(after.context, {
    title: 'Return to the agency',
    opening: [
      `Every lot sold on ${longDate(after.facts.sale.heldOn)}: seller, goods, price, export tags, where taken, and buyer.`,
      'What a return must hold, and by when it is sent in, differs by State and year: check with your wildlife agency.',
      NO_COUNTY,
    ],
    tables: tablesOf(after, lots),
    remarks: [lots.length === 0 ? 'Nothing was sold.' : `${countWords(lots.length, 'lot')} sold in all.`],
    signatures: ['For the association', 'Date'],
    caution: NO_ADVICE,
  });
}

function tablesOf(after: AfterwardsFacts, lots: readonly SoldLot[]): ListTable[] {
  const own = lookUp(after);
  const of = ({ lot, outcome }: SoldLot) => own(lot, outcome);
  return bySeller<SoldLot>(after, lots, [
    ['lot', 'Lot', ({ lot }) => lot.lotNo],
    ['words', 'Goods and tags', (sold) => cell(clean(of(sold).kind?.name ?? sold.lot.goods), ...of(sold).tags)],
    ['quantity', 'Number', ({ lot }) => quantityFor(lot).words],
    ['price', 'Price', ({ lot, outcome }) => priceFor(outcome.priceCents, lot.by).words],
    ['goods', 'State, county', (sold) => of(sold).state],
    ['words', 'Buyer', (sold) => buyerCell(of(sold).buyer)],
  ]);
}

function buyerCell(buyer: PartyWords | undefined): ListCell {
  return cell(buyer?.names ?? '', buyer?.licence ? `Licence ${buyer.licence}` : '');
}
