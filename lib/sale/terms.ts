/** The terms of a sale in words for the sheet. */
import { showMoney, ZERO } from '#lib/money/money.ts';
import type { Rate } from '#lib/money/rate.ts';
import type { Goods, Sale, Terms } from './facts.ts';

/** The terms as plain sentences for the sheets, in a fixed order; what is 0 and plays no part is left out. */
export function termsInWords(
  sale: Pick<Sale, 'terms' | 'currency'>,
  goods: readonly Pick<Goods, 'goods' | 'name'>[],
): string[] {
  return [...commissionInWords(sale, goods), ...feesInWords(sale), ...buyersInWords(sale.terms), DONATED];
}

const DONATED = 'A donated lot pays no commission and no fee; what it brings is the association\u2019s.';

function commissionInWords(
  { terms, currency }: Pick<Sale, 'terms' | 'currency'>,
  goods: readonly Pick<Goods, 'goods' | 'name'>[],
): string[] {
  const names = new Map(goods.map((kind) => [kind.goods, kind.name]));
  const overrides = Object.entries(terms.commissionOverrides).map(
    ([kind, rates]) => `${names.get(kind) ?? kind}: members pay ${rates.member} %, guests ${rates.guest} %.`,
  );
  const base = `Members pay ${terms.commission.member} % commission, guests ${terms.commission.guest} %.`;
  const least = `The commission of a lot is at least ${showMoney(terms.commissionMinCents)} ${currency}, and never more than the lot brought.`;
  return [base, ...overrides, ...(terms.commissionMinCents > ZERO ? [least] : [])];
}

function feesInWords({ terms, currency }: Pick<Sale, 'terms' | 'currency'>): string[] {
  const sentences: string[] = [];
  if (terms.sellerNumberFeeCents > ZERO)
    sentences.push(`A seller number costs ${showMoney(terms.sellerNumberFeeCents)} ${currency}.`);
  if (terms.lotFeeCents > ZERO)
    sentences.push(`Each lot sold or passed costs ${showMoney(terms.lotFeeCents)} ${currency}.`);
  const flat = terms.noSaleFlatCents > ZERO ? [`${showMoney(terms.noSaleFlatCents)} ${currency}`] : [];
  const pct = isNothing(terms.noSalePctOfMinimum) ? [] : [`${terms.noSalePctOfMinimum} % of its minimum`];
  const noSale = [...flat, ...pct].join(' and ');
  if (noSale !== '') sentences.push(`A lot that is passed costs a no-sale fee of ${noSale}.`);
  return sentences;
}

export function buyersInWords(terms: Pick<Terms, 'premiumPct' | 'taxPct'>): string[] {
  const premium = isNothing(terms.premiumPct)
    ? 'There is no buyer\u2019s premium.'
    : `Buyers pay a premium of ${terms.premiumPct} % on each lot.`;
  const tax = `Buyers who are not exempt pay ${terms.taxPct} % sales tax on their lots and premium.`;
  return [premium, ...(isNothing(terms.taxPct) ? [] : [tax])];
}

function isNothing(rate: Rate): boolean {
  return /^0*\.?0*$/.test(rate);
}
