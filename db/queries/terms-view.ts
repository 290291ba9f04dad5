/** A sale, its terms and its goods as they would be typed again, and why they can no longer be changed. */
import { decideGoodsOpen, decideTermsOpen } from '#lib/decide-amend-sale.ts';
import { typedOf } from '#lib/field/fields.ts';
import { RATE_FIELDS, SALE_FIELDS, type SaleAsTyped, TERM_FIELDS } from '#lib/sale/terms-fields.ts';
import type { Book } from '../open.ts';
import type { GoodsRow, SaleRow } from './find.ts';
import { goodsRowsOf, saleOfRow } from './sale-facts.ts';
import { saleSoFar } from './sale-so-far.ts';

export interface TermsView {
  /** Why nothing is changed any more, in a sentence; null while it may be. */
  readonly stands: string | null;
  readonly typed: SaleAsTyped;
  readonly overrides: readonly { readonly goods: string; readonly member: string; readonly guest: string }[];
  readonly goods: readonly Pick<GoodsRow, 'goods' | 'name'>[];
}

export function termsView(book: Book, row: SaleRow): TermsView {
  const { terms, ...day } = saleOfRow(book, row);
  const { commission, commissionOverrides, ...fees } = terms;
  return {
    stands: whyItStands(book, row),
    typed: {
      ...typedOf(SALE_FIELDS, day),
      ...typedOf(RATE_FIELDS, commission),
      ...typedOf(TERM_FIELDS, fees),
    },
    overrides: Object.entries(commissionOverrides).map(([code, rates]) => ({ goods: code, ...rates })),
    goods: goodsRowsOf(book, row.id),
  };
}

function whyItStands(book: Book, row: SaleRow): string | null {
  const open = decideTermsOpen(saleSoFar(book, row), REASON);
  return open.ok ? null : open.message;
}

/** Why no goods are added or changed any more, in a sentence; null while they may be. */
export function whyGoodsStand(row: SaleRow): string | null {
  const open = decideGoodsOpen(row, REASON);
  return open.ok ? null : open.message;
}

/** A reason is asked for when something is changed, and not before. */
const REASON = 'asked later';
