import type { Book } from '../open.ts';

/** Bids are only ever added, so that what was read of them once need not be read again. For screens only. */
export function lotsWithLeftBids(book: Book): ReadonlySet<number> {
  const known = book.prepared('lots with left bids so far', () => ({ upTo: 0, lots: new Set<number>() }));
  const later = book.prepared('left bids since', () =>
    book.sqlite
      .prepare<[number], [number, number]>("SELECT id, lot_id FROM bid WHERE id > ? AND kind = 'left' ORDER BY id")
      .raw(),
  );
  for (const [id, lotId] of later.all(known.upTo) as [number, number][]) {
    known.lots.add(lotId);
    known.upTo = id;
  }
  return known.lots;
}
