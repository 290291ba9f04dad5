/** What the association keeps of a sale, beside the sale before it. */
import { goodsOfParts, type Kept, keptOf, keptOfParts } from '#lib/closing/kept.ts';
import { keptPaper } from '#lib/closing/kept-paper.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import type { Book } from '../open.ts';
import { saleBefore } from './afterwards.ts';
import type { SaleRow } from './find.ts';
import { keptUntilLine } from './kept.ts';
import { paperGround } from './paper-lots.ts';
import { partiesOf } from './parties.ts';
import { goodsOf, moneyFacts, saleFacts } from './sale-facts.ts';

/** As a finished list, with the head of the log as it is now. `drawnOn` is an ISO 8601 date. */
export function keptOfSale(book: Book, sale: SaleRow, drawnOn: string): ListPaper {
  const { now, before } = keptUntilLine(book, `kept by the house ${sale.id}`, () => keptNow(book, sale));
  return keptPaper(paperGround(book, sale, drawnOn), now, before);
}

function keptNow(book: Book, sale: SaleRow) {
  const before = saleBefore(book, sale);
  const parts = partsOf(book, sale);
  return {
    now: {
      goodsNames: new Map(goodsOf(book, sale.id).map(({ goods, name }) => [goods, name])),
      kept: keptOfParts(parts, moneyFacts(book, sale.id).payments),
      byGoods: goodsOfParts(parts),
    },
    before: before ? { heldOn: before.heldOn, kept: keptBefore(book, before) } : null,
  };
}

function partsOf(book: Book, sale: SaleRow) {
  const { sellers, buyers } = partiesOf(book, sale);
  return [...sellers, ...buyers].map(({ kept }) => kept);
}

/** A closed sale stays as it is until somebody reopens it, which changes its row: so its sums alone are kept. */
function keptBefore(book: Book, sale: SaleRow): Kept {
  if (sale.stage !== 'closed') return keptOfParts(partsOf(book, sale), moneyFacts(book, sale.id).payments);
  const known = book.prepared('kept by the house before', () => new Map<string, Kept>());
  const key = `${sale.id} ${sale.line}`;
  const kept = known.get(key) ?? keptOf(saleFacts(book, sale.id));
  known.set(key, kept);
  return kept;
}
