/** What is wrong with export tags: on goods that take none, and on lots that were put up all the same. */
import type { RefusalCode } from '#lib/result.ts';
import type { TagFault } from '#lib/tag.ts';
import type { LotWithTags } from './lots-with-tags.ts';
import type { Report } from './problem.ts';
import type { Rows } from './rows.ts';

/** A tagged lot that was never put up may lack tags: it comes in on hold, as at the table. */
export function checkTagsOfLots(lots: readonly LotWithTags[], rows: Rows, report: Report): void {
  const putUp = new Map<string | undefined, number>();
  for (const { line, cells } of rows.results) {
    if (cells.outcome === 'sold' || cells.outcome === 'passed') putUp.set(cells.lot_no, line);
  }
  for (const lot of lots) {
    const resultLine = putUp.get(lot.lot.cells.lot_no);
    for (const fault of lot.faults) reportFault(lot, { fault, resultLine }, report);
  }
}

function reportFault(lot: LotWithTags, { fault, resultLine }: Found, report: Report): void {
  const { code, message, tag } = fault;
  if (code !== 'tag_not_taken' && resultLine === undefined) return;
  const refusal = { code: codeOf(fault), message };
  const line = lot.tags.find((row) => row.tag === tag)?.line;
  if (line !== undefined) {
    report({ file: 'tags.csv', line, column: 'tag' }, refusal);
  } else if (code !== 'count_missing' && !lot.tagsInDoubt && resultLine !== undefined) {
    // A missing count is told of the lot's own row.
    report({ file: 'results.csv', line: resultLine, column: 'outcome' }, refusal);
  }
}

interface Found {
  readonly fault: TagFault;
  readonly resultLine: number | undefined;
}

function codeOf({ code }: TagFault): RefusalCode {
  return code === 'tag_not_taken' ? 'malformed' : 'on_hold';
}
