/** The balance of a sale as the treasurer's screen shows it. The closing itself works everything out anew. */
import type { ClosingLine } from '#lib/closing/line.ts';
import { linesOfSums } from '#lib/closing/lines.ts';
import { moneyLine } from '#lib/closing/money-line.ts';
import { isOpen } from '#lib/drawer/reckon.ts';
import type { Book } from '../open.ts';
import { drawerEntries, drawerMoves } from './drawer.ts';
import type { SaleRow } from './find.ts';
import { keptUntilLine } from './kept.ts';
import { partiesOf } from './parties.ts';
import { moneyFacts } from './sale-facts.ts';

export interface BalanceView {
  readonly lines: readonly ClosingLine[];
  /** How many of them are not at zero. */
  readonly open: number;
  readonly drawerOpen: boolean;
}

/** Kept until the log moves. */
export function balanceView(book: Book, sale: SaleRow): BalanceView {
  return keptUntilLine(book, `balance ${sale.id}`, () => balanceNow(book, sale));
}

function balanceNow(book: Book, sale: SaleRow): BalanceView {
  const { sellers, buyers } = partiesOf(book, sale);
  const drawer = drawerEntries(book, sale.id);
  const lines = linesOfSums({
    sellers: sellers.map(({ sums }) => sums),
    buyers: buyers.map(({ sums }) => sums),
    money: moneyLine({ facts: moneyFacts(book, sale.id), drawer, moves: drawerMoves(book, sale.id) }),
  });
  return { lines, open: lines.filter(({ difference }) => difference !== 0).length, drawerOpen: isOpen(drawer) };
}
