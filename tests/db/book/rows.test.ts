import { integer, sqliteTable } from 'drizzle-orm/sqlite-core';
import { describe, expect, it } from 'vitest';
import { type Book, openBookInMemory } from '#db/book/open.ts';
import { insertRow } from '#db/book/rows.ts';
import { bid, commissionOverride, goods, outcome, person } from '#db/schema/index.ts';
import { cents } from '#lib/money/money.ts';

const RACCOON = { saleId: 1, goods: 'raccoon', name: 'Raccoon', by: 'piece', line: 1 } as const;

function looseBook(): Book {
  const book = openBookInMemory();
  // The rows here stand alone.
  book.sqlite.pragma('foreign_keys = OFF');
  return book;
}

const stored = (book: Book, table: string) => book.sqlite.prepare(`SELECT * FROM "${table}"`).all();

describe('a row that is written', () => {
  it('is stored as drizzle stores one alone: defaults, nothing, a yes, a list', () => {
    const [ours, theirs] = [looseBook(), looseBook()];
    const bids = { lotId: 1, buyerId: 2, kind: 'left', priceCents: cents(1250), line: 3 } as const;
    const listed = { ...RACCOON, goods: 'bobcat', exportTag: true, sizes: ['XL', 'L'], seasonLimit: null };
    const sold = {
      lotId: 4,
      kind: 'sold' as const,
      priceCents: cents(1),
      buyerId: 2,
      at: 'now',
      remarks: ['said'],
      line: 1,
    };
    for (const row of [RACCOON, listed]) {
      insertRow(ours, goods, row);
      theirs.db.insert(goods).values(row).run();
    }
    insertRow(ours, bid, bids);
    insertRow(ours, outcome, sold);
    theirs.db.insert(bid).values(bids).run();
    theirs.db.insert(outcome).values(sold).run();
    const override = { saleId: 1, goods: 'raccoon', memberPct: '5', guestPct: '10', line: 1 };
    insertRow(ours, commissionOverride, override);
    theirs.db.insert(commissionOverride).values(override).run();
    for (const table of ['goods', 'bid', 'outcome', 'commission_override']) {
      expect(stored(ours, table).length).toBeGreaterThan(0);
      expect(stored(ours, table)).toEqual(stored(theirs, table));
    }
    expect(stored(ours, 'goods')[1]).toMatchObject({ export_tag: 1, sizes: '["XL","L"]', season_limit: null });
  });

  it('gives its id, and keeps the one it brings', () => {
    const book = looseBook();
    const row = { name: 'Ada Elm', nameFolded: 'ada elm', memberLine: 1, line: 1 };
    expect(insertRow(book, person, { ...row, ref: 'P1' })).toBe(1);
    expect(insertRow(book, person, { ...row, ref: 'P7', id: 7 })).toBe(7);
    expect(insertRow(book, person, { ...row, ref: 'P8' })).toBe(8);
  });

  it('is refused where nothing would be stored as something', () => {
    const unsure = sqliteTable('unsure', { answer: integer('answer', { mode: 'boolean' }) });
    const book = looseBook();
    book.sqlite.exec('CREATE TABLE unsure (answer INTEGER)');
    expect(() => insertRow(book, unsure, { answer: null })).toThrow(
      'unsure.answer could not be told from an empty one',
    );
  });
});
