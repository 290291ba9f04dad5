/** Judges what `sale.json` says: by the schema by which a sale is planned on the screens. */
import type * as z from 'zod';
import { plainWords } from '#db/book/inputs.ts';
import { saleInput, saleOf } from '#db/sale/commands.ts';
import { parseDate } from '#lib/date/date.ts';
import { parseRegion } from '#lib/field/kinds.ts';
import { type Result, refuse } from '#lib/result/result.ts';
import type { Sale } from '#lib/sale/facts.ts';
import type { RawFolder, Report } from './problem.ts';
import { SALE_FILE } from './tables.ts';

/** What the other files are judged by, each undefined where it cannot be read: a wrong tax hides no missing tag. */
export interface SaleBasics {
  readonly heldOn: string | undefined;
  readonly region: string | undefined;
  readonly guestsMaySell: boolean | undefined;
  /** The goods that pay another commission. */
  readonly overrides: readonly string[];
}

export function saleBasics({ sale }: RawFolder): SaleBasics {
  const guests = valueAt(sale, ['terms', 'guests_may_sell']);
  const overrides = valueAt(sale, ['terms', 'commission_overrides']);
  return {
    heldOn: textAt(sale, 'held_on', parseDate),
    region: textAt(sale, 'region', parseRegion),
    guestsMaySell: typeof guests === 'boolean' ? guests : undefined,
    overrides: typeof overrides === 'object' && overrides !== null ? Object.keys(overrides) : [],
  };
}

function textAt(sale: unknown, key: string, parse: (text: string) => Result<string>): string | undefined {
  const value = valueAt(sale, [key]);
  const read = typeof value === 'string' ? parse(value) : undefined;
  return read?.ok ? read.value : undefined;
}

/** The sale, or undefined where something in it was reported. */
export function readSale({ sale, saleLines }: RawFolder, report: Report): Sale | undefined {
  if (sale === undefined) return undefined;
  const read = saleInput.safeParse(sale, { error: plainWords });
  if (read.success) return saleOf(read.data);
  for (const issue of read.error.issues) {
    for (const { path, message } of mistakesOf(issue, sale)) {
      report({ file: SALE_FILE, line: saleLine(saleLines, path), column: path || '-' }, refuse('malformed', message));
    }
  }
  return undefined;
}

/** The line of a dotted key; of one that is not there, that of what it should be in. */
export function saleLine(lines: RawFolder['saleLines'], path: string): number {
  for (let key = path; key !== ''; key = key.slice(0, Math.max(0, key.lastIndexOf('.')))) {
    const line = lines.get(key);
    if (line !== undefined) return line;
  }
  return 1;
}

function mistakesOf(issue: z.core.$ZodIssue, sale: unknown): { path: string; message: string }[] {
  const path = issue.path.join('.');
  if (issue.code === 'unrecognized_keys') {
    const inside = path === '' ? '' : `${path}.`;
    return issue.keys.map((key) => ({ path: `${inside}${key}`, message: `Delete “${key}”: a sale has no such key.` }));
  }
  const found = valueAt(sale, issue.path);
  if (found === undefined) return [{ path, message: `Add “${String(issue.path.at(-1) ?? '')}”. ${issue.message}` }];
  if (typeof found === 'number') return [{ path, message: `Put the figure between quotation marks: "${found}".` }];
  return [{ path, message: issue.message }];
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  let at = value;
  for (const key of path) {
    if (typeof at !== 'object' || at === null) return undefined;
    at = (at as Record<PropertyKey, unknown>)[key];
  }
  return at;
}
