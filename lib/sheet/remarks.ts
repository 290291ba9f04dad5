/** What a reader of the sheet should know beside the figures. */

import type { Buyer, Lot, Outcome } from '#lib/facts.ts';
import { groupBy } from '#lib/group.ts';
import type { SellerFile, SheetTag } from '#lib/sheet/input.ts';
import type { SheetPartner, SheetTags } from '#lib/sheet/model.ts';
import { clean, listed, priceFor } from '#lib/sheet/spell.ts';

/** Own words; a fact of the trade with no source of its own: common practice. */
export const CAUTION =
  'Taxes and tax returns are for your accountant to judge; tags, licences and permits for your wildlife agency.';

/** Lots that somebody behind the number bought back, and lots sold under their minimum. */
export function remarksOf(file: SellerFile, partners: readonly SheetPartner[]): string[] {
  const lots = new Map(file.lots.map((lot) => [lot.lotNo, lot]));
  const sold = file.outcomes.filter(({ kind }) => kind === 'sold');
  return [
    ...boughtBack(sold, file.buyers, partners),
    ...sold.flatMap((outcome) => underMinimum(outcome, lots.get(outcome.lotNo))),
  ];
}

/** UCC § 2-328(4): a seller's own bid matters to the buyers, so it stands on the paper. */
function boughtBack(sold: readonly Outcome[], buyers: readonly Buyer[], partners: readonly SheetPartner[]): string[] {
  const personOf = new Map(buyers.map(({ buyerNo, personId }) => [buyerNo, personId]));
  return partners.flatMap(({ personId, name }) => {
    const own = sold.filter(({ buyerNo }) => buyerNo !== null && personOf.get(buyerNo) === personId);
    if (own.length === 0) return [];
    const which = own.length === 1 ? 'Lot' : 'Lots';
    const numbers = [...new Set(own.map(({ buyerNo }) => String(buyerNo)))];
    return [
      `${which} ${listed(own.map(({ lotNo }) => lotNo))} went to ${name}, buyer ${listed(numbers)} and a seller of this number.`,
    ];
  });
}

function underMinimum({ lotNo, priceCents }: Outcome, lot: Lot | undefined): string[] {
  if (lot === undefined || lot.minimumCents === null || priceCents === null) return [];
  if (priceCents >= lot.minimumCents) return [];
  return [`Lot ${lotNo} was sold under its minimum of ${priceFor(lot.minimumCents, lot.by).words}.`];
}

export const CONDITIONS = {
  intact: '',
  broken: 'broken, to be replaced before export',
  replacement: 'replacement',
} as const;

/** The export tags of each lot that bears any, in the order of the lots. */
export function tagsOf(file: Pick<SellerFile, 'lots' | 'tags' | 'goods'>): SheetTags[] {
  const names = new Map(file.goods.map((kind) => [kind.goods, kind.name]));
  const tags = groupBy(file.tags, ({ lotNo }) => lotNo);
  return file.lots.flatMap(({ lotNo, goods }) => {
    const own = tags.get(lotNo) ?? [];
    return own.length === 0 ? [] : [{ lotNo, goods: clean(names.get(goods) ?? goods), tags: own.map(tagOf) }];
  });
}

function tagOf({ tag, condition, mended }: SheetTag): SheetTags['tags'][number] {
  const mark = mended?.by ? `broken, replaced by ${mended.by}` : CONDITIONS[condition];
  return { tag, condition, words: mark === '' ? tag : `${tag} (${mark})` };
}
