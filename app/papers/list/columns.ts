/** The columns of a list: how wide each kind is, and to which side its words are set. */
import { StyleSheet } from '@react-pdf/renderer';
import type { ColumnKind } from '#lib/paper/list.ts';

interface Measures {
  /** In points; a column without it shares what is left. */
  readonly width?: number;
  /** Its share of what is left. */
  readonly flex?: number;
  readonly marginLeft?: number;
  readonly paddingLeft?: number;
  readonly paddingRight?: number;
}

const MEASURES = {
  lot: { width: 42, paddingRight: 4 },
  number: { width: 38, paddingRight: 6 },
  goods: { flex: 1, paddingRight: 6 },
  quantity: { width: 72, paddingRight: 6 },
  price: { width: 78, paddingRight: 6 },
  money: { width: 70, paddingLeft: 6 },
  figure: { width: 50 },
  words: { flex: 1.4, paddingRight: 6 },
  tick: { width: 40, paddingLeft: 3 },
  blank: { width: 56, marginLeft: 6 },
} as const satisfies Readonly<Record<ColumnKind, Measures>>;

export const COLUMNS = StyleSheet.create({
  lot: { ...MEASURES.lot, fontWeight: 700 },
  number: { ...MEASURES.number, textAlign: 'right' },
  goods: MEASURES.goods,
  quantity: MEASURES.quantity,
  price: { ...MEASURES.price, textAlign: 'right' },
  money: { ...MEASURES.money, textAlign: 'right' },
  figure: { ...MEASURES.figure, textAlign: 'right' },
  words: MEASURES.words,
  tick: MEASURES.tick,
  blank: { ...MEASURES.blank, height: 21, borderWidth: 0.5 },
});

const RIGHT: readonly ColumnKind[] = ['number', 'price', 'money', 'figure'];
const LEFT: readonly ColumnKind[] = ['goods', 'words', 'quantity'];
/** What keeps words from the figure that ends where they begin. */
const APART = StyleSheet.create({ words: { paddingLeft: 8 } });

const isApart = (kinds: readonly ColumnKind[], at: number) =>
  RIGHT.some((kind) => kind === kinds[at - 1]) && LEFT.some((kind) => kind === kinds[at]);

/** The style of a column's words beside its kind's own. */
export function apartIn(kinds: readonly ColumnKind[], at: number) {
  return isApart(kinds, at) ? APART.words : {};
}

/** The room that the words of each column have, in points, where all of them share `width`. */
export function roomOf(kinds: readonly ColumnKind[], width: number): number[] {
  const measures: readonly Measures[] = kinds.map((kind) => MEASURES[kind]);
  const total = (of: (one: Measures) => number) => measures.map(of).reduce((so, one) => so + one, 0);
  const left = width - total(({ width: own = 0, marginLeft = 0 }) => own + marginLeft);
  const shares = total(({ flex = 0 }) => flex);
  return measures.map(({ width: own, flex = 0, paddingLeft = 0, paddingRight = 0 }, at) => {
    const whole = own ?? (left * flex) / shares;
    const before = isApart(kinds, at) ? APART.words.paddingLeft : paddingLeft;
    return Math.max(10, whole - before - paddingRight);
  });
}
