/** Reasons that a digit of the keypad gives, because a correction in the middle of a sale must take a moment only. */
export const REASONS = ['price misheard', 'buyer number misheard', 'typed wrong', 'announced again'] as const;

/** The reason a person gave: a digit of the list, or their own words. */
export function readReason(typed: string): string {
  const words = typed.trim();
  return /^[1-4]$/.test(words) ? (REASONS[Number.parseInt(words, 10) - 1] ?? '') : words;
}
