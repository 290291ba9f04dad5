/** The part of an export tag that all tags of a lot share, so that a volunteer types only the numbers. */

const BARE_START = /^\s*[A-Z]{0,3}\d/i;

interface HeadOf {
  /** ISO 3166-2, such as US-WY: where the pieces were taken. */
  readonly region: string;
  readonly tagSpeciesCode: string;
  /** The newest tag of such goods in the book, in its canonical spelling, or null. */
  readonly newest: string | null;
}

/**
 * What stands before the number: as on the newest such tag of the same State and species, else the State and the code
 * of the goods without a year of take, which not every tag shows. Empty where the goods have no code.
 */
export function tagHead({ region, tagSpeciesCode, newest }: HeadOf): string {
  if (tagSpeciesCode === '') return '';
  const head = `US-CITES ${region.slice(region.indexOf('-') + 1)} ${tagSpeciesCode.toUpperCase()}`;
  const shared = newest?.slice(0, newest.lastIndexOf(' '));
  return shared !== undefined && (shared === head || shared.startsWith(`${head} `)) ? shared : head;
}

/** The list as it was typed, with the head before it where it begins with a number alone. */
export function withTagHead(typed: string, head: string): string {
  return head !== '' && BARE_START.test(typed) ? `${head} ${typed.trim()}` : typed;
}
