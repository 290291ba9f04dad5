/** What is wrong with a folder only because of what the book holds already. */
import { and, eq } from 'drizzle-orm';
import type { Sale } from '#lib/facts.ts';
import { refuse } from '#lib/result.ts';
import type { Book } from '../open.ts';
import { sale as saleTable } from '../schema/index.ts';
import { doubledTagLines } from './check-duplicates.ts';
import type { CheckedFolder } from './check-folder.ts';
import { type Problem, problemList, type Report } from './problem.ts';
import type { RawFolder } from './raw.ts';
import { saleLine } from './read-sale.ts';
import type { Rows } from './rows.ts';
import { SALE_FILE } from './tables.ts';
import { tagUse } from './tag-use.ts';

export function checkAgainstBook(book: Book, raw: RawFolder, { sale, rows }: CheckedFolder): Problem[] {
  if (sale === undefined) return [];
  const { problems, report } = problemList();
  if (saleIsThere(book, sale)) {
    // Every tag of a sale that is there already would be in the book too: that is one problem, not many.
    const say = `Nothing was imported: the sale “${sale.name}” of ${sale.heldOn} is already in the book. If this is another sale, give it another name.`;
    report({ file: SALE_FILE, line: saleLine(raw.saleLines, 'name'), column: 'name' }, refuse('already', say));
  } else {
    checkTagUse(book, { sale, rows }, report);
  }
  return problems;
}

function saleIsThere(book: Book, { name, heldOn }: Sale): boolean {
  const same = and(eq(saleTable.name, name), eq(saleTable.heldOn, heldOn));
  return book.db.select({ id: saleTable.id }).from(saleTable).where(same).get() !== undefined;
}

function checkTagUse(book: Book, { sale, rows }: { sale: Sale; rows: Rows }, report: Report): void {
  const doubled = doubledTagLines(rows);
  const home = lotsGoneHome(rows);
  for (const { line, cells } of rows.tags) {
    const { lot_no, tag } = cells;
    if (lot_no === undefined || tag === undefined || doubled.has(line)) continue;
    const use = tagUse(book, { tag, heldOn: sale.heldOn, wentHome: home.has(lot_no) });
    if (!use.ok) report({ file: 'tags.csv', line, column: 'tag' }, use);
  }
}

/** The numbers of the lots that were passed or withdrawn. */
export function lotsGoneHome({ results }: Pick<Rows, 'results'>): ReadonlySet<string> {
  const home = results.filter(({ cells }) => cells.outcome === 'passed' || cells.outcome === 'withdrawn');
  return new Set(home.flatMap(({ cells }) => (cells.lot_no === undefined ? [] : [cells.lot_no])));
}
