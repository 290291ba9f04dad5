import { describe, expect, it } from 'vitest';
import { openBookInMemory } from '#db/book/open.ts';
import { importFolder } from '#db/exchange/import-folder.ts';
import { LINES_A_PAGE, logPart, logView } from '#db/worker/log-view.ts';
import { logEntryInWords } from '#lib/worker/worker.ts';
import { bigFolder } from '#tests/support/big-folder.ts';
import { giveTo, openHall } from '#tests/support/hall.ts';

const AT = '2026-02-28T10:00:00Z';
const hall = openHall();
const { book, saleId, must } = hall;
must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' }, 'intake');
must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '11' }, 'intake');
must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
const first = book.sqlite.prepare<[], number>('SELECT id FROM outcome').pluck().get() ?? 0;
must('outcome.correct', {
  ...{ lotId: 1, replacesId: first, reason: 'Misheard', kind: 'sold', price: '7.50', buyerNo: 11 },
});
giveTo(book, 'person.amend', { input: { personId: 2, name: 'Bea Cole' }, worker: 'Bea', at: '2026-03-01T09:00:00Z' });

const words = (asked: Parameters<typeof logView>[1]) => logView(book, asked).lines.map((line) => line.words);

describe('the log in words', () => {
  it('shows the newest first, with who and where', () => {
    const [newest] = logView(book, {}).lines;
    expect(newest).toMatchObject({ worker: 'Bea', station: 'office', at: '2026-03-01T09:00:00Z' });
    expect(newest?.words).toBe('Person amended: Bea Cole');
    expect(words({ station: 'block' })).toEqual([
      'Outcome corrected: sold, buyer 11, at 7.50, because: Misheard',
      'Outcome: lot 1, sold, buyer 10, at 7.25',
    ]);
  });

  it('finds what happened to a lot, also where the line names it by the book’s own number', () => {
    expect(words({ saleId, lotNo: '1' })).toEqual([
      'Outcome corrected: sold, buyer 11, at 7.50, because: Misheard',
      'Outcome: lot 1, sold, buyer 10, at 7.25',
      'Checked in: lot 1, seller number 1, raccoon, count 3',
    ]);
    expect(words({ saleId, lotNo: '2' })).toHaveLength(1);
    expect(words({ saleId, lotNo: '99' })).toEqual([]);
  });

  it('finds what concerns a person, and what somebody did, and a day', () => {
    expect(words({ personId: 2 })).toEqual([
      'Person amended: Bea Cole',
      expect.stringMatching(/^Buyer registered: buyer 10/),
      'Person enrolled: Bea Cole',
    ]);
    expect(words({ worker: 'Bea' })).toHaveLength(1);
    expect(words({ from: '2026-03-01' })).toHaveLength(1);
    expect(words({ to: '2026-02-28' })).toHaveLength(
      book.sqlite.prepare('SELECT count(*) - 1 FROM log').pluck().get() as number,
    );
  });

  it('finds a day by the day of the hall', () => {
    const inHawaii = openHall();
    inHawaii.must('association.set', { name: 'Lantern Ridge', timeZone: 'Pacific/Honolulu' });
    inHawaii.give('person.enrol', { name: 'Late' }, { at: '2027-01-01T09:59:59.999Z' });
    inHawaii.give('person.enrol', { name: 'Later' }, { at: '2027-01-01T10:00:00Z' });
    const on = (asked: { from?: string; to?: string }) => logView(inHawaii.book, asked).lines.map((one) => one.words);
    expect(on({ from: '2026-12-31', to: '2026-12-31' })).toEqual(['Person enrolled: Late']);
    expect(on({ from: '2027-01-01' })).toEqual(['Person enrolled: Later']);
  });

  it('turns pages without leaving a line out or showing one twice', () => {
    for (let n = 0; n < LINES_A_PAGE + 20; n += 1) must('person.enrol', { name: `Guest ${n}` });
    const seen: number[] = [];
    let before: number | undefined;
    do {
      const { lines, older } = logView(book, { before });
      seen.push(...lines.map(({ line }) => line));
      before = older ?? undefined;
    } while (before !== undefined);
    const all = book.sqlite.prepare('SELECT seq FROM log ORDER BY seq DESC').pluck().all();
    expect(seen).toEqual(all);
    expect(logPart(book, {}, 9999).map(({ line }) => line)).toEqual(all);
  });

  it('says of an import what its whole input would say, without reading it, and finds its lots', () => {
    const imported = openBookInMemory();
    importFolder(imported, bigFolder({ lots: 3, called: 2, sellers: 1, buyers: 1 }), { worker: 'Ada', at: AT });
    const [part] = logPart(imported, {}, 1);
    const result = JSON.parse(imported.sqlite.prepare('SELECT result FROM log').pluck().get() as string);
    const { words: said } = logView(imported, { saleId: 1, lotNo: '2' }).lines[0] ?? {};
    expect(said).toBe(logEntryInWords({ label: 'Sale imported', input: JSON.parse(part?.input ?? ''), result }));
    expect(said).toMatch(/^Sale imported: .*The Large Sale$/);
    imported.close();
  });

  it('has words for every line of a whole sale', () => {
    for (const line of logPart(book, {}, 9999)) expect(line.words).toMatch(/^\p{Lu}.*[^.]$/u);
  });
});
