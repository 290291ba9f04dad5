/** The purchase record as a table of plain cells, for a buyer's own book: one row a lot. */
import type { PurchaseRecord, PurchaseRow } from '#lib/buyer/model.ts';
import { withoutFormula } from '#lib/formula.ts';
import { formatMoney } from '#lib/money.ts';

/** Text columns are escaped for spreadsheets; figures and dates are not. */
type Column = readonly [name: string, kind: 'text' | 'figure', cell: (row: PurchaseRow) => string];

const COLUMNS: readonly Column[] = [
  ['date', 'figure', ({ date }) => date],
  ['lot_no', 'figure', ({ lotNo }) => lotNo],
  ['seller_no', 'figure', ({ sellerNo }) => String(sellerNo)],
  ['seller', 'text', ({ sellers }) => sellers.map(({ name }) => name).join('; ')],
  ['seller_address', 'text', ({ sellers }) => sellers.map(({ address }) => address.join(', ')).join('; ')],
  ['seller_licence', 'text', ({ sellers }) => sellers.map(({ licence }) => licence).join('; ')],
  ['kind', 'text', ({ goods }) => goods],
  ['scientific_name', 'text', ({ scientificName }) => scientificName],
  ['count', 'figure', ({ count }) => (count === null ? '' : String(count))],
  ['quantity', 'figure', ({ quantity }) => quantity.figure],
  ['unit', 'text', ({ quantity }) => quantity.unit],
  ['price', 'figure', ({ price }) => formatMoney(price.cents)],
  ['price_for', 'text', ({ by }) => by],
  ['each', 'figure', ({ each }) => (each.words === '' ? '' : formatMoney(each.cents))],
  ['amount', 'figure', ({ amount }) => formatMoney(amount.cents)],
  ['taken_in', 'text', ({ takenIn }) => takenIn],
  // Its place in the buyer's own book; nobody can say it yet.
  ['county', 'text', () => ''],
  ['tags', 'text', ({ tags }) => tags.map(({ tag }) => tag).join('; ')],
  [
    'not_exportable',
    'text',
    ({ tags }) =>
      tags
        .filter(({ exportable }) => !exportable)
        .map(({ tag }) => tag)
        .join('; '),
  ],
];

export const PURCHASE_COLUMNS: readonly string[] = COLUMNS.map(([name]) => name);

/** The cells of each row. A text that a spreadsheet would take for a formula gets an apostrophe before it. */
export function purchaseCells({ rows }: PurchaseRecord): string[][] {
  return rows.map((row) => COLUMNS.map(([, kind, cell]) => (kind === 'text' ? withoutFormula(cell(row)) : cell(row))));
}
