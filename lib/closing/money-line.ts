/**
 * Money in less money out against what lies in the drawer and the bank. Where the drawer was counted, the count is what
 * lies there; money that was never in an open drawer counts as it was recorded. A count that is over or short explains
 * itself by its note: then the difference is a part of its own.
 */
import type { ClosingFacts, NotedEntry } from '#lib/closing/facts.ts';
import { type ClosingLine, closingLine, type Part, type Why } from '#lib/closing/line.ts';
import { type DrawerMove, differenceInWords, reckonDrawer } from '#lib/drawer/reckon.ts';
import type { Method, SaleFacts } from '#lib/facts.ts';
import { addCents, type Cents, negate, sumCents } from '#lib/money.ts';
import { paidOut } from '#lib/payout/accounts.ts';

/** What the line is made from: the payments and charges of the sale, the drawer and what moved in it. */
export interface MoneyFacts extends Pick<ClosingFacts, 'drawer' | 'moves'> {
  readonly facts: Pick<SaleFacts, 'payments' | 'charges'>;
}

export function moneyLine({ facts, drawer, moves }: MoneyFacts): ClosingLine {
  const stints = closedStints(drawer);
  const counts = stints.flatMap((stint) => countsOf(stint, moves));
  const noted = counts.filter(({ note }) => note.trim() !== '');
  const open = counts.filter(({ note }) => note.trim() === '');
  const lying = (method: Method): Cents =>
    addCents(
      sumCents(moves.filter((move) => move.method === method).map(({ amountCents }) => amountCents)),
      sumCents(counts.filter((count) => count.method === method).map(({ differenceCents }) => differenceCents)),
    );
  const parts: Part[] = [
    { label: 'Cash', amount: lying('cash') },
    { label: 'Checks taken', amount: lying('check') },
    { label: 'Cards', amount: lying('card') },
    { label: 'Other', amount: lying('other') },
    { label: 'Checks written, drawn on the bank', amount: negate(checksWritten(facts)) },
    ...noted.map(({ words, differenceCents }) => ({ label: words, amount: negate(differenceCents) })),
  ];
  return closingLine({
    name: 'money',
    title: 'The money is there',
    unit: 'cents',
    leftWords: 'Money in less money out',
    left: moneyIn(facts),
    rightWords:
      stints.length > 0 ? 'In the drawer, as counted, and the bank' : 'In the cash box and the bank, as recorded',
    parts,
    why: open.map(whyOf),
  });
}

/** Payments, and charges that were taken in cash. */
function moneyIn({ payments, charges }: MoneyFacts['facts']): Cents {
  const cash = charges.filter(({ how }) => how === 'cash').map(({ amountCents }) => amountCents);
  return addCents(negate(paidOut(payments)), sumCents(cash));
}

function checksWritten({ payments }: MoneyFacts['facts']): Cents {
  const written = payments.filter(({ direction, method }) => direction === 'out' && method === 'check');
  return sumCents(written.map(({ amountCents }) => amountCents));
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

interface Count {
  readonly entryId: number;
  readonly method: Method;
  readonly differenceCents: Cents;
  readonly note: string;
  readonly words: string;
}

function countsOf(stint: readonly NotedEntry[], moves: readonly DrawerMove[]): Count[] {
  const close = stint.at(-1);
  if (close === undefined) return [];
  return reckonDrawer(stint, moves, close).flatMap(({ method, differenceCents }) => {
    const words = differenceInWords({ method, differenceCents });
    if (differenceCents === null || words === null) return [];
    const said = close.note.trim() === '' ? words : `${words}: ${close.note.trim()}`;
    return [{ entryId: close.entryId, method, differenceCents, note: close.note, words: said }];
  });
}

function whyOf({ entryId, words, differenceCents }: Count): Why {
  const what = `the drawer: ${words.toLowerCase()}; count again, or close it with a note that says why`;
  return { kind: 'drawer', ref: String(entryId), words: what, amount: negate(differenceCents) };
}
