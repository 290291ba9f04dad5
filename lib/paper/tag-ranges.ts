/** Export tags as they are written on paper: running numbers as a range, in the spelling that the check-in table reads. */
import { compareCodePoints } from '#lib/order.ts';
import type { PaperTag } from '#lib/paper/facts.ts';
import { CONDITIONS } from '#lib/sheet/remarks.ts';

/** All but the last digits of a tag, and those: `US-CITES WY BOB 2025 ` and `000101`. */
const NUMBERED = /^(.*[\sA-Z])(\d+)$/;

interface Run {
  readonly head: string;
  readonly from: string;
  readonly to: string;
}

/**
 * The tags of a lot in order: `US-CITES WY BOB 2025 000101 to 000118` for numbers that follow each other, and each that
 * is not intact by itself, with what is the matter.
 */
export function tagRanges(tags: readonly PaperTag[]): string[] {
  const intact = tags.filter(({ condition }) => condition === 'intact').map(({ tag }) => tag);
  const others = tags.filter(({ condition }) => condition !== 'intact');
  const runs = intact.sort(compareCodePoints).reduce<Run[]>(withTag, []);
  return [
    ...runs.map(({ head, from, to }) => (from === to ? `${head}${from}` : `${head}${from} to ${to}`)),
    ...others.map(({ tag, condition }) => `${tag} (${CONDITIONS[condition]})`),
  ];
}

/** Lengthens the last run by a tag that follows it, or begins a new one. */
function withTag(runs: Run[], tag: string): Run[] {
  const [, head = tag, number = ''] = NUMBERED.exec(tag) ?? [];
  const last = runs.at(-1);
  if (last && last.head === head && follows(last.to, number)) runs[runs.length - 1] = { ...last, to: number };
  else runs.push({ head, from: number, to: number });
  return runs;
}

/** The next number in the same number of digits; a number too long for that is none. */
function follows(before: string, number: string): boolean {
  return number !== '' && number.length === before.length && BigInt(number) - BigInt(before) === 1n;
}
