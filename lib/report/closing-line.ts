/** One line of the balance by which a sale is closed: two sides, their difference, and the very things that explain it. */
import { type DrawerEntry, type DrawerMove, differenceInWords, reckonDrawer } from '#lib/drawer/drawer.ts';
import { addCents, type Cents, negate, showMoney, sumOf } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Method, SaleFacts } from '#lib/sale/facts.ts';
import { paidIn } from '#lib/seller/account.ts';
import type { SheetTotals } from '#lib/settlement/model.ts';

interface NotedEntry extends DrawerEntry {
  readonly note: string;
}

export interface ClosingFacts {
  readonly facts: SaleFacts;
  readonly sheets: ReadonlyMap<number, { readonly number: number; readonly totals: SheetTotals }>;
  readonly invoices: ReadonlyMap<number, { readonly number: number; readonly totalCents: Cents }>;
  readonly drawer: readonly NotedEntry[];
  readonly moves: readonly DrawerMove[];
}

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
  readonly parts: readonly Part[];
  readonly right: number;
  readonly difference: number;
  readonly why: readonly Why[];
}

type Own = Omit<ClosingLine, 'unit' | 'right' | 'difference'> & Partial<Pick<ClosingLine, 'unit'>>;

/** A line of money, unless it says another unit, whose right side is the sum of its parts; what explains nothing is left out. */
export function closingLine(own: Own): ClosingLine {
  const right = own.parts.reduce((so, { amount }) => so + amount, 0);
  const why = own.why.filter(({ amount }) => amount !== 0);
  return { unit: 'cents', ...own, right, difference: own.left - right, why };
}

/**
 * Money in less money out against what lies in the drawer and the bank: payments, and charges that were taken in cash.
 * Where the drawer was counted, the count is what lies there; money that was never in an open drawer counts as it was
 * recorded. A count that is over or short explains itself by its note: then the difference is a part of its own.
 */
export function moneyLine({ facts, drawer, moves }: Omit<ClosingFacts, 'sheets' | 'invoices'>): ClosingLine {
  const cash = facts.charges.filter(({ how }) => how === 'cash');
  const checks = facts.payments.filter(({ direction, method }) => direction === 'out' && method === 'check');
  const stints = closedStints(drawer);
  const counts = stints.flatMap((stint) => countsOf(stint, moves));
  const noted = counts.filter(({ note }) => note.trim() !== '');
  const open = counts.filter(({ note }) => note.trim() === '');
  const lying = (method: Method): Cents => {
    const recorded = moves.filter((move) => move.method === method);
    const off = counts.filter((count) => count.method === method);
    return addCents(sumOf(recorded, 'amountCents'), sumOf(off, 'differenceCents'));
  };
  const parts: Part[] = [
    { label: 'Cash', amount: lying('cash') },
    { label: 'Checks taken', amount: lying('check') },
    { label: 'Cards', amount: lying('card') },
    { label: 'Other', amount: lying('other') },
    { label: 'Checks written, drawn on the bank', amount: negate(sumOf(checks, 'amountCents')) },
    ...noted.map(({ words, differenceCents }) => ({ label: words, amount: negate(differenceCents) })),
  ];
  return closingLine({
    name: 'money',
    title: 'The money is there',
    leftWords: 'Money in less money out',
    left: addCents(paidIn(facts.payments), sumOf(cash, 'amountCents')),
    rightWords:
      stints.length > 0 ? 'In the drawer, as counted, and the bank' : 'In the cash box and the bank, as recorded',
    parts,
    why: open.map(({ entryId, words, differenceCents }) => ({
      kind: 'drawer',
      ref: String(entryId),
      words: `the drawer: ${words.toLowerCase()}; count again, or close it with a note that says why`,
      amount: negate(differenceCents),
    })),
  });
}

/** From each opening of the drawer to the close that ends it; one still open is not counted yet. */
function closedStints(entries: readonly NotedEntry[]): NotedEntry[][] {
  const stints: NotedEntry[][] = [];
  for (const entry of entries) {
    if (entry.kind === 'opened') stints.push([entry]);
    else stints.at(-1)?.push(entry);
  }
  return stints.filter((stint) => stint.at(-1)?.kind === 'closed');
}

function countsOf(stint: readonly NotedEntry[], moves: readonly DrawerMove[]) {
  const close = stint.at(-1);
  if (close === undefined) return [];
  return reckonDrawer(stint, moves, close).flatMap(({ method, differenceCents }) => {
    const words = differenceInWords({ method, differenceCents });
    if (differenceCents === null || words === null) return [];
    const said = close.note.trim() === '' ? words : `${words}: ${close.note.trim()}`;
    return [{ entryId: close.entryId, method, differenceCents, note: close.note, words: said }];
  });
}

const MOST_NAMED = 3;

/** Whether a sale may be closed: when every line of its balance is at zero, and the drawer is put away. */
export function decideClose(lines: readonly ClosingLine[], drawerOpen: boolean): Result<null> {
  if (drawerOpen) {
    const message = 'The sale does not close while the drawer is open: count and close it at the Till.';
    return refuse('conflict', message, 'stage');
  }
  const open = lines.filter(({ difference }) => difference !== 0);
  if (open.length === 0) return accept(null);
  const sentences = open.map(
    (line) => `${line.title}: ${amountWords(line, line.difference)} off (${named(line.why)}).`,
  );
  const message = `The sale closes only at zero. ${sentences.join(' ')} See the balance under Payout.`;
  return refuse('conflict', message, 'stage');
}

export function amountWords({ unit }: Pick<ClosingLine, 'unit'>, amount: number): string {
  if (unit === 'cents') return showMoney(amount as Cents);
  return `${amount} ${Math.abs(amount) === 1 ? unit.slice(0, -1) : unit}`;
}

function named(why: readonly Why[]): string {
  const shown = why.slice(0, MOST_NAMED).map(({ words }) => words);
  const more = why.length - shown.length;
  return more > 0 ? `${shown.join('; ')}; and ${more} more` : shown.join('; ');
}
