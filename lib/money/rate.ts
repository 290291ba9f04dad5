/** Percentages, apart from money: the Block's browser reads prices and no rates. */
import { accept, firstMistake, type Mistake, type Result, refuse } from '#lib/result/result.ts';
import { parseScaled } from './money.ts';

declare const rateBrand: unique symbol;
/** A percentage as decimal text, from 0 to 100 with at most four places: `6`, `3.75`. */
export type Rate = string & { readonly [rateBrand]: true };

const RATE_MISTAKES: readonly Mistake[] = [
  { when: /^$/, code: 'missing', say: 'Enter a percentage, such as 6 or 3.75.' },
  { when: /%/, say: 'Leave out the % sign: write 6.' },
  { when: /\s/, say: 'Leave out the spaces: write 3.75.' },
  { when: /^[-+\u2212]/, say: 'Enter a percentage from 0 to 100, without a sign.' },
  { when: /,/, say: 'Use a point, not a comma: 3.75.' },
  { when: /[^\d.]/, say: 'Use digits and a point only: 3.75.' },
  { when: /\.\d{5,}$/, say: 'Use at most four digits behind the point: 3.75.' },
  { when: /\..*\.|\.$/, say: 'Use one point, with digits behind it: 3.75.' },
];

/** Reads a percentage of 0 to 100 with at most four places; the text is kept as typed. */
export function parseRate(text: string): Result<Rate> {
  const mistake = firstMistake(RATE_MISTAKES, text);
  if (mistake !== null) return mistake;
  if (parseScaled(text, 4) > 1_000_000) return refuse('too_large', 'Enter a percentage from 0 to 100.');
  return accept(text as Rate);
}

/** The same as people write it: `6%`, `6 %`, `6.`; the text is kept as a file has it. */
export function readRate(text: string): Result<Rate> {
  return parseRate(
    text
      .trim()
      .replace(/\s*%$/, '')
      .replace(/(\d)\.$/, '$1'),
  );
}

/** A rate known to be good. Throws a RangeError for any other text. */
export function rate(text: string): Rate {
  const result = parseRate(text);
  if (!result.ok) throw new RangeError(`${text}: ${result.message}`);
  return result.value;
}
