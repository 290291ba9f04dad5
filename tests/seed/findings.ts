/** What there is to see at the demo's sale, each as `lot: what`, in the words of the tour. */
import type { Book } from '#db/book/open.ts';
import { bid, lot, outcome, tag } from '#db/schema/index.ts';
import { holdsOfLotId } from '#db/tag/queries.ts';
import type { DemoSale } from './demo-book.ts';

export function findings(book: Book, { id, facts }: DemoSale): string[] {
  const rows = book.db.select().from(lot).all();
  const lots = rows.filter(({ saleId }) => saleId === id);
  const outcomes = book.db.select().from(outcome).all();
  const bids = book.db.select().from(bid).all();
  const tags = book.db.select().from(tag).all();
  const standing = new Map(facts.outcomes.map(({ lotNo, kind }) => [`${lotNo}`, kind]));
  const [next] = facts.lots.filter(({ lotNo }) => !standing.has(lotNo));
  return lots.flatMap((row) => {
    const no = `${row.lotNumber}${row.lotLetter}`;
    const own = outcomes.filter(({ lotId }) => lotId === row.id);
    const left = bids.filter(({ lotId, kind }) => lotId === row.id && kind === 'left');
    const kind = standing.get(no);
    const seen: Record<string, boolean> = {
      passed: kind === 'passed',
      withdrawn: kind === 'withdrawn',
      donated: row.donated && kind === 'sold',
      corrected: own.length === 2,
      'sold by the lot': row.by === 'lot' && kind === 'sold',
      'sold below its minimum': own.some(({ remarks }) => remarks.includes('below_minimum')),
      'sold to a left bid': left.some((one) => own.some(({ buyerId }) => buyerId === one.buyerId)),
      'left bids': left.length > 1 && kind === undefined,
      'next to be called': next?.lotNo === no,
      'on hold': holdsOfLotId(book, row).length > 0,
      'came back': tags.some(({ lotId, cameBackFromId }) => lotId === row.id && cameBackFromId !== null),
    };
    return Object.keys(seen).flatMap((what) => (seen[what] ? [`${no}: ${what}`] : []));
  });
}
