/** Everything that can be judged of a folder by itself: its cells, its rows, and how they fit together. */
import type { Sale } from '#lib/sale/facts.ts';
import { checkOverrides, checkReferences, checkSellers, checkTagsOfLots } from './check-references.ts';
import { checkDuplicates, checkEachRow } from './check-rows.ts';
import { type LotWithTags, lotsWithTags } from './lot-list.ts';
import { type Problem, problemList, type RawFolder } from './problem.ts';
import { readSale, saleBasics } from './read-sale.ts';
import { type Rows, readRows } from './read-table.ts';

export interface CheckedFolder {
  /** Undefined where `sale.json` has a problem. */
  readonly sale: Sale | undefined;
  readonly rows: Rows;
  readonly lots: readonly LotWithTags[];
  readonly problems: readonly Problem[];
}

export function checkFolder(raw: RawFolder): CheckedFolder {
  const { problems, report } = problemList();
  const sale = readSale(raw, report);
  const rows = readRows(raw.tables, report);
  checkDuplicates(rows, report);
  checkReferences(raw, rows, report);
  checkEachRow(rows, report);
  const ground = saleBasics(raw);
  checkOverrides(raw, { overrides: ground.overrides, rows }, report);
  checkSellers(ground, rows, report);
  const lots = lotsWithTags(ground.region, rows);
  checkTagsOfLots(lots, rows, report);
  return { sale, rows, lots, problems };
}
