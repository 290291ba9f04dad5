/** When the terms and the goods of a sale may still be changed. A paper prints its terms, and not the list of goods. */
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Goods, Sale, Stage } from './facts.ts';

export interface SoFar {
  readonly stage: Stage;
  /** True once a settlement sheet or an invoice was issued: then the terms stand on paper. */
  readonly issued: boolean;
  readonly lots: number;
  /** Outcomes and written bids. */
  readonly called: number;
}

export type Fixed = Pick<Sale, 'region' | 'currency' | 'bidding'>;

/** Terms are changed until the first sheet is out; after the check-in has begun, with a reason for the log. */
export function decideTermsOpen(soFar: SoFar, reason: string): Result<null> {
  if (soFar.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: its terms stand.', 'saleId');
  if (soFar.issued) {
    const message =
      'A settlement sheet or an invoice is out, and these terms are printed on it: they stand for this sale.';
    return refuse('already', message, 'saleId');
  }
  return decideReason(soFar, reason);
}

/** Goods are added and changed all day, until the sale is closed: somebody brings a kind that nobody thought of. */
export function decideGoodsOpen(soFar: Pick<SoFar, 'stage'>, reason: string): Result<null> {
  if (soFar.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
  return decideReason(soFar, reason);
}

function decideReason({ stage }: Pick<SoFar, 'stage'>, reason: string): Result<null> {
  if (stage !== 'planned' && reason.trim() === '') {
    return refuse('missing', 'The sale is under way: say why this is changed.', 'reason');
  }
  return accept(null);
}

/** What lots were checked in under, or bids were made under, is no longer changed. */
export function decideFixed(before: Fixed, after: Fixed, soFar: SoFar): Result<null> {
  if (soFar.lots > 0 && before.region !== after.region) {
    return refuse('already', `Lots are in, and their tags were read for ${before.region}: it stands.`, 'sale.region');
  }
  if (soFar.lots > 0 && before.currency !== after.currency) {
    return refuse('already', `Lots are in, with minimums in ${before.currency}: it stands.`, 'sale.currency');
  }
  if (soFar.called > 0 && before.bidding !== after.bidding) {
    return refuse('already', 'Lots were called or bid on: how they are sold stands.', 'sale.bidding');
  }
  return accept(null);
}

export type GoodsRule = Pick<Goods, 'by' | 'exportTag' | 'tagSpeciesCode'>;

export interface GoodsSoFar {
  readonly lots: number;
  /** Lots that were weighed and not counted: no tag a piece can be asked for them. */
  readonly uncounted: number;
  readonly tags: number;
  readonly called: number;
}

/**
 * What a price of goods stands for is fixed with the first lot of them. Their tags are asked for, or no longer, until
 * one of their lots is called; from then on some would have been sold under another rule than the rest.
 */
export function decideGoodsRule(before: GoodsRule, after: GoodsRule, has: GoodsSoFar): Result<null> {
  if (has.lots > 0 && before.by !== after.by) {
    return refuse('already', 'Lots of these goods are in: what their price stands for is changed lot by lot.', 'by');
  }
  const tagRule = before.exportTag === after.exportTag ? accept(null) : decideTagRule(after.exportTag, has);
  if (!tagRule.ok) return tagRule;
  if (before.tagSpeciesCode !== after.tagSpeciesCode && has.called > 0) {
    return refuse('already', 'Lots of these goods were called: their species code stands.', 'tagSpeciesCode');
  }
  return accept(null);
}

/** What issued papers print of goods: their name, where the terms give them their own commission or lots were called. */
export interface OnPaper {
  readonly issued: boolean;
  readonly ownCommission: boolean;
  readonly called: number;
}

export function decideGoodsName(before: string, after: string, paper: OnPaper): Result<null> {
  if (before === after || !paper.issued) return accept(null);
  if (!paper.ownCommission && paper.called === 0) return accept(null);
  const message = `A settlement sheet or an invoice is out, and ${before} is printed on it. Keep this name.`;
  return refuse('already', message, 'name');
}

function decideTagRule(asked: boolean, has: GoodsSoFar): Result<null> {
  if (has.called > 0) {
    return refuse('already', 'Lots of these goods were called: whether they need tags stands.', 'exportTag');
  }
  if (!asked && has.tags > 0) {
    return refuse('already', 'Tags of these goods are in the book: take them off their lots first.', 'exportTag');
  }
  if (asked && has.uncounted > 0) {
    const message = 'Lots of these goods were weighed and not counted: enter their pieces first, for a tag each.';
    return refuse('already', message, 'exportTag');
  }
  return accept(null);
}
