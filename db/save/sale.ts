import type { Goods, Sale, Stage } from '#lib/facts.ts';
import type { Scene } from '../command.ts';
import { insertRow } from '../rows.ts';
import { commissionOverride, goods, sale } from '../schema/index.ts';

/** Adds a sale with its terms and the goods it takes; gives the sale's id. */
export function saveSale(scene: Scene, facts: Sale, stage: Stage): number {
  const { terms, ...rest } = facts;
  const { commission, commissionOverrides, ...figures } = terms;
  const saleId = insertRow(scene.book, sale, {
    ...rest,
    ...figures,
    stage,
    commissionMemberPct: commission.member,
    commissionGuestPct: commission.guest,
    line: scene.line,
  });
  for (const [code, rates] of Object.entries(commissionOverrides)) {
    const row = { saleId, goods: code, memberPct: rates.member, guestPct: rates.guest, line: scene.line };
    scene.book.db.insert(commissionOverride).values(row).run();
  }
  return saleId;
}

/** What an association may add to goods beyond the exchange folder's columns. */
export interface GoodsExtras {
  readonly sizes: string[];
  readonly grades: string[];
  readonly caution: string;
}

export const NO_EXTRAS: GoodsExtras = { sizes: [], grades: [], caution: '' };

export function saveGoods(scene: Scene, saleId: number, facts: Goods & GoodsExtras): number {
  return insertRow(scene.book, goods, { saleId, ...facts, line: scene.line });
}
