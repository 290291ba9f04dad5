/** One line of the balance by which a sale is closed: two sides, their difference, and the very things that explain it. */

/** What explains a part of a difference, so that a screen can lead to it. */
export interface Why {
  readonly kind: 'lot' | 'buyer' | 'seller' | 'drawer';
  /** The lot, buyer or seller number; of the drawer, the number of its entry. */
  readonly ref: string;
  readonly words: string;
  /** In the unit of the line; those of a line add up to its difference. */
  readonly amount: number;
}

export interface Part {
  readonly label: string;
  readonly amount: number;
}

type ClosingName = 'pieces' | 'lots' | 'hammer' | 'sheets' | 'invoices' | 'buyers' | 'sellers' | 'money';

/** `left`, `right` and `difference` (left less right) are whole cents, pieces or lots. */
export interface ClosingLine {
  readonly name: ClosingName;
  readonly title: string;
  readonly unit: 'cents' | 'pieces' | 'lots';
  readonly leftWords: string;
  readonly left: number;
  readonly rightWords: string;
  /** What the right side is made of. */
  readonly parts: readonly Part[];
  readonly right: number;
  readonly difference: number;
  readonly why: readonly Why[];
}

type Own = Omit<ClosingLine, 'right' | 'difference' | 'why'> & { readonly why: readonly Why[] };

/** A line whose right side is the sum of its parts; what explains nothing is left out. */
export function closingLine(own: Own): ClosingLine {
  const right = own.parts.reduce((so, { amount }) => so + amount, 0);
  return { ...own, right, difference: own.left - right, why: own.why.filter(({ amount }) => amount !== 0) };
}
