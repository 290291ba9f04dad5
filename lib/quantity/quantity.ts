/** Quantities as they are typed: pieces, and a weight in thousandths of a pound or an ounce. The Block's browser reads none. */
import { parseScaled } from '#lib/money/money.ts';
import { accept, firstMistake, type Mistake, type Result, refuse } from '#lib/result/result.ts';

const WEIGHT_MISTAKES: readonly Mistake[] = [
  { when: /^$/, code: 'missing', say: 'Enter the weight, such as 7.35.' },
  { when: /\s/, say: 'Leave out the spaces: write 7.35.' },
  { when: /^[-+\u2212]/, say: 'Enter a weight of more than 0, without a sign.' },
  { when: /,/, say: 'Use a point, not a comma: 7.35.' },
  { when: /[^\d.]/, say: 'Use digits and a point only, without the unit: 7.35.' },
  { when: /\.\d{4,}$/, say: 'Use at most three digits behind the point: 7.35.' },
  { when: /\..*\.|\.$/, say: 'Use one point, with digits behind it: 7.35.' },
  { when: /^0*\d{7,}(\.|$)/, code: 'too_large', say: 'Enter a weight of at most 999999.999.' },
  { when: /^0*\.?0*$/, say: 'Enter a weight of more than 0.' },
];

const COUNT_MISTAKES: readonly Mistake[] = [
  { when: /^$/, code: 'missing', say: 'Enter the number of pieces, such as 12.' },
  { when: /[^\d]/, say: 'Enter the number of pieces as a whole number in digits: 12.' },
  { when: /^0+$/, say: 'Enter at least 1 piece.' },
  { when: /^0*\d{6,}$/, code: 'too_large', say: 'Enter at most 99999 pieces in one lot, or divide the lot.' },
];

/** Reads a weight: more than 0, up to 999999.999, at most three places. Gives thousandths of the unit. */
export function parseWeight(text: string): Result<number> {
  const mistake = firstMistake(WEIGHT_MISTAKES, text);
  if (mistake !== null) return mistake;
  const thousandths = parseScaled(text, 3);
  if (thousandths > 999_999_999) return refuse('too_large', 'Enter a weight of at most 999999.999.');
  return accept(thousandths);
}

/** Reads a number of pieces: a whole number from 1 to 99999. */
export function parseCount(text: string): Result<number> {
  const mistake = firstMistake(COUNT_MISTAKES, text);
  return mistake ?? accept(Number.parseInt(text, 10));
}
