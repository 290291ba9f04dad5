/** The printed table, and its place in docs/performance.md. */
import { median } from './figures.ts';
import type { Line, Target } from './row.ts';

const HEAD = '| row | what | against | median | spread | target | met | seen in this run |';
const RULE = '| --- | --- | --- | --: | --- | --- | --- | --- |';

/** A figure as short as it can be and still tell two apart. */
export function shown(value: number): string {
  if (!Number.isFinite(value)) return String(value);
  if (Math.abs(value) >= 100) return value.toFixed(0);
  return Math.abs(value) >= 10 ? value.toFixed(1) : value.toFixed(2);
}

function targetWords({ atMost, atLeast }: Target, unit: string): string {
  const words = [
    ...(atLeast === undefined ? [] : [`≥ ${shown(atLeast)} ${unit}`]),
    ...(atMost === undefined ? [] : [`≤ ${shown(atMost)} ${unit}`]),
  ];
  return words.join(', ').trimEnd();
}

/** Whether the median keeps the target. */
export function isMet({ figures, target }: Pick<Line, 'figures' | 'target'>): boolean | null {
  if (!target) return null;
  const middle = median(figures);
  return middle <= (target.atMost ?? Number.POSITIVE_INFINITY) && middle >= (target.atLeast ?? 0);
}

/** One line in Markdown, with the name of its row in front. */
export function tableLine(row: string, line: Line): string {
  const { what, against, figures, unit, target, seen } = line;
  const met = isMet(line);
  const spread = `${shown(Math.min(...figures))} to ${shown(Math.max(...figures))}`;
  const cells = [row, what, against, `${shown(median(figures))} ${unit}`.trimEnd(), spread];
  const judged = [target ? targetWords(target, unit) : '', met === null ? '' : met ? 'yes' : '**no**', seen];
  return `| ${[...cells, ...judged].join(' | ')} |`;
}

/** The whole table of what was measured. */
export function tableText(measured: ReadonlyMap<string, readonly Line[]>): string {
  const lines = [...measured].flatMap(([row, own]) => own.map((line) => tableLine(row, line)));
  return [HEAD, RULE, ...lines].join('\n');
}

const BEGIN = '<!-- table: written by the bench -->';
const END = '<!-- end of the table -->';

/**
 * The page with the measured rows in place of their older lines; the lines of rows that were not measured stay.
 * `order` says in which order rows stand. Throws where the page has no place for the table.
 */
export function pageWith(
  page: string,
  measured: ReadonlyMap<string, readonly Line[]>,
  { order, machine }: { readonly order: readonly string[]; readonly machine: string },
): string {
  const [before, rest] = page.split(BEGIN);
  const [table, after] = (rest ?? '').split(END);
  if (before === undefined || table === undefined || after === undefined) {
    throw new Error('docs/performance.md has lost the place of its table.');
  }
  const older = table.split('\n').filter((line) => line.startsWith('| '));
  const lines = order.flatMap((row) => {
    const own = measured.get(row);
    return own ? own.map((line) => tableLine(row, line)) : older.filter((line) => line.startsWith(`| ${row} |`));
  });
  return `${before}${BEGIN}\n${machine}\n\n${[HEAD, RULE, ...lines].join('\n')}\n${END}${after}`;
}
