/** Which numbers of checks are used up, and what that says of a pile that would begin with one. */
import { countWords } from '#lib/result/text.ts';
import { listed } from '#lib/settlement/spelling.ts';

/** Numbers that follow each other without a gap: the first and the last. */
export type NumberRun = readonly [first: number, last: number];

/** Numbers as the runs that they make, in order: two hundred checks of a pile are one. */
export function runsOf(numbers: Iterable<number>): NumberRun[] {
  const runs: [number, number][] = [];
  for (const number of [...new Set(numbers)].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs;
}

/** The number itself, or the next one behind it that is not used. */
export function nextFree(number: number, taken: readonly NumberRun[]): number {
  const inside = taken.find(([first, last]) => first <= number && number <= last);
  return inside ? inside[1] + 1 : number;
}

/** Why so many checks cannot bear the numbers from `first` on: those that are written already; null where they can. */
export function takenMistake(first: number, count: number, taken: readonly NumberRun[]): string | null {
  const end = first + count - 1;
  const used = taken.flatMap(([from, to]): NumberRun[] =>
    to < first || from > end ? [] : [[Math.max(from, first), Math.min(to, end)]],
  );
  const [run] = used;
  if (!run) return null;
  const one = used.length === 1 && run[0] === run[1];
  const which = listed(used.map(([from, to]) => (from === to ? `${from}` : `${from} to ${to}`)));
  const what = `${one ? 'Check' : 'Checks'} ${which} ${one ? 'is' : 'are'} written already`;
  return count === 1
    ? `${what}: enter another number.`
    : `${what}: begin where ${countWords(count, 'number')} are free.`;
}
