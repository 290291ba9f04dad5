/** The till's drawer: opened in the morning with a float, closed at night with what lies in it. */
import { drawerEntries, drawerMoves } from '#db/queries/drawer.ts';
import { denominationsOf } from '#lib/drawer/denominations.ts';
import { reckonDrawer, stintOf } from '#lib/drawer/reckon.ts';
import { type Cents, formatMoney, ZERO } from '#lib/money.ts';
import type { Hall } from './check-in.ts';

/** 200.00 in notes and coins. */
const FLOAT = { '20.00': '4', '10.00': '6', '5.00': '8', '1.00': '15', '0.25': '20' };

export function openDrawer({ hand, saleId }: Hall): void {
  const pieces = Object.entries(FLOAT).map(([denomination, count]) => ({ denomination, pieces: count }));
  hand.give('till', 'drawer.record', { saleId, kind: 'opened', pieces });
}

/** Counts what should be there, to the cent: the demo's cashiers make no slip. */
export function closeDrawer({ hand, saleId }: Hall): void {
  const stint = stintOf(drawerEntries(hand.book, saleId));
  const lines = reckonDrawer(stint, drawerMoves(hand.book, saleId), null);
  const due = (method: string): Cents => lines.find((line) => line.method === method)?.expectedCents ?? ZERO;
  const beside = { checks: formatMoney(due('check')), cards: formatMoney(due('card')) };
  hand.give('till', 'drawer.record', { saleId, kind: 'closed', pieces: madeUp(due('cash')), ...beside });
}

/** An amount in as few notes and coins as there can be. */
function madeUp(amount: Cents): { denomination: string; pieces: string }[] {
  let left: number = amount;
  return denominationsOf('USD').flatMap(({ cents }) => {
    const count = Math.floor(left / cents);
    left -= count * cents;
    return count > 0 ? [{ denomination: formatMoney(cents), pieces: String(count) }] : [];
  });
}
