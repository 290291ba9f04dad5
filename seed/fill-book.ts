import type { Book } from '#db/open.ts';
import { ASSOCIATION } from './association.ts';
import { SALES } from './calendar.ts';
import { handOf } from './hand.ts';
import { beginSale, holdSale } from './hold-sale.ts';
import type { People } from './people.ts';

/**
 * Fills an empty book with the demo: three winters held, paid and closed, and this season's sale half sold.
 * Everything goes through the door, and comes out the same every time.
 */
export function fillBook(book: Book): void {
  const hand = handOf(book);
  const people: People = new Map();
  hand.clock(SALES[0]?.heldOn ?? '', '12:45');
  hand.give('office', 'association.set', ASSOCIATION);
  for (const sale of SALES.slice(0, -1)) holdSale(hand, people, sale);
  for (const sale of SALES.slice(-1)) beginSale(hand, people, sale);
}
