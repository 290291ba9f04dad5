/** What a drawer ought to hold by what was recorded, beside what was counted: over, short or even, by method. */
import { type Cents, negate, showMoney, subtractCents, sumCents, ZERO } from '#lib/money/money.ts';
import { decideVoid, type VoidContext } from '#lib/payment/decide-payment.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Handed, Stage } from '#lib/sale/facts.ts';
import type { Denomination, Pieces } from './cash.ts';

export type DrawerKind = 'opened' | 'added' | 'taken' | 'counted' | 'closed';

/** An entry of the drawer that was not voided. `line` is its place in the log. */
export interface DrawerEntry {
  readonly entryId: number;
  readonly kind: DrawerKind;
  readonly line: number;
  readonly cashCents: Cents;
  /** What was counted or taken beside the cash; null where nobody said. */
  readonly checksCents: Cents | null;
  readonly cardsCents: Cents | null;
  readonly otherCents: Cents | null;
}

/** Money that was recorded at a line of the log: in above nothing, out below. A check written out is drawn on the bank and no move of the drawer. */
export interface DrawerMove {
  readonly line: number;
  readonly method: Handed;
  readonly amountCents: Cents;
}

/** One method of a reckoning, in whole cents. The first five add up to `expectedCents`. */
export interface DrawerLine {
  readonly method: Handed;
  readonly floatCents: Cents;
  readonly addedCents: Cents;
  /** Below nothing. */
  readonly takenCents: Cents;
  readonly inCents: Cents;
  /** Below nothing. */
  readonly outCents: Cents;
  readonly expectedCents: Cents;
  readonly countedCents: Cents | null;
  /** Counted less expected: above nothing over, below nothing short. */
  readonly differenceCents: Cents | null;
}

const DRAWER_METHODS = ['cash', 'check', 'card', 'other'] as const satisfies readonly Handed[];

/** The entries since the drawer was opened last, the opening first; none where it was never opened. */
export function stintOf<T extends DrawerEntry>(entries: readonly T[]): readonly T[] {
  const opened = entries.findLastIndex(({ kind }) => kind === 'opened');
  return opened < 0 ? [] : entries.slice(opened);
}

export function isOpen(entries: readonly DrawerEntry[]): boolean {
  const stint = stintOf(entries);
  return stint.length > 0 && !stint.some(({ kind }) => kind === 'closed');
}

/**
 * The reckoning of a stint, by method. With a count, everything up to the line of the count; without one, up to now.
 * Throws a RangeError unless the stint begins with an opening.
 */
export function reckonDrawer(
  stint: readonly DrawerEntry[],
  moves: readonly DrawerMove[],
  count: DrawerEntry | null,
): DrawerLine[] {
  const [opened] = stint;
  if (opened?.kind !== 'opened') throw new RangeError('a stint of the drawer begins with its opening');
  const upTo = count?.line ?? Number.POSITIVE_INFINITY;
  const entries = stint.filter(({ line }) => line <= upTo);
  const within = moves.filter(({ line }) => line > opened.line && line <= upTo);
  return DRAWER_METHODS.map((method) => lineOf(method, entries, within, count));
}

function lineOf(
  method: Handed,
  entries: readonly DrawerEntry[],
  moves: readonly DrawerMove[],
  count: DrawerEntry | null,
): DrawerLine {
  const own = moves.filter((move) => move.method === method).map(({ amountCents }) => amountCents);
  const held = (kind: DrawerKind) =>
    sumCents(entries.filter((entry) => entry.kind === kind).map((entry) => heldBy(entry, method) ?? ZERO));
  const floatCents = held('opened');
  const addedCents = held('added');
  const takenCents = subtractCents(ZERO, held('taken'));
  const inCents = sumCents(own.filter((amount) => amount > ZERO));
  const outCents = sumCents(own.filter((amount) => amount < ZERO));
  const expectedCents = sumCents([floatCents, addedCents, takenCents, inCents, outCents]);
  const countedCents = count && heldBy(count, method);
  const differenceCents = countedCents === null ? null : subtractCents(countedCents, expectedCents);
  const recorded = { floatCents, addedCents, takenCents, inCents, outCents };
  return { method, ...recorded, expectedCents, countedCents, differenceCents };
}

function heldBy(entry: DrawerEntry, method: Handed): Cents | null {
  if (method === 'cash') return entry.cashCents;
  if (method === 'check') return entry.checksCents;
  return method === 'card' ? entry.cardsCents : entry.otherCents;
}

const NAMES: Readonly<Record<Handed, string>> = { cash: 'Cash', check: 'Checks', card: 'Cards', other: 'Other money' };

/** `Cash short by 11.83`; null where the count is even, or there is none. */
export function differenceInWords({ method, differenceCents }: Pick<DrawerLine, 'method' | 'differenceCents'>) {
  if (differenceCents === null || differenceCents === ZERO) return null;
  const over = differenceCents > ZERO;
  return `${NAMES[method]} ${over ? 'over' : 'short'} by ${showMoney(over ? differenceCents : negate(differenceCents))}`;
}

export interface DrawerContext {
  readonly stage: Stage;
  readonly open: boolean;
  readonly denominations: readonly Denomination[];
}

export interface DrawerAct {
  readonly kind: DrawerKind;
  readonly pieces: readonly Pieces[];
  /** Checks, cards and other, null where nothing was said. */
  readonly beside: readonly (Cents | null)[];
}

export function decideDrawer({ stage, open, denominations }: DrawerContext, act: DrawerAct): Result<null> {
  if (stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
  if (act.kind === 'opened' && open) {
    return refuse('already', 'The drawer is open already: count it, or close it first.', 'kind');
  }
  if (act.kind !== 'opened' && !open) {
    return refuse('not_allowed', 'The drawer is not open: open it with what lies in it first.', 'kind');
  }
  const known = new Set(denominations.map(({ cents }) => cents));
  const strange = act.pieces.find(({ denominationCents }) => !known.has(denominationCents));
  if (strange) {
    const message = `There is no bill or coin of ${showMoney(strange.denominationCents)}: enter it by what there is.`;
    return refuse('malformed', message, 'pieces');
  }
  if (new Set(act.pieces.map(({ denominationCents }) => denominationCents)).size < act.pieces.length) {
    return refuse('malformed', 'A bill or coin is entered twice: enter each once, with how many there are.', 'pieces');
  }
  const moves = act.kind === 'added' || act.kind === 'taken';
  if (moves && act.pieces.length === 0 && act.beside.every((amount) => amount === null)) {
    return refuse('missing', `Enter what was ${act.kind === 'added' ? 'put in' : 'taken out'}.`, 'pieces');
  }
  return accept(null);
}

export interface DrawerVoidContext extends VoidContext {
  readonly newest: boolean;
}

/** Only the newest entry can be taken back, so that no count loses what it was counted against. */
export function decideDrawerVoid({ newest, ...row }: DrawerVoidContext): Result<null> {
  const decided = decideVoid(row, 'entry');
  if (!decided.ok || newest) return decided;
  const message = 'Only the newest entry of the drawer can be voided: void those after it first.';
  return refuse('not_allowed', message, 'entryId');
}

/** Whether the drawer can be closed over or short: only with a word on why, or the sale could never close after it. */
export function decideDrawerClose(lines: readonly DrawerLine[], note: string): Result<null> {
  const off = lines.flatMap((line) => differenceInWords(line) ?? []);
  if (off.length === 0 || note.trim() !== '') return accept(null);
  return refuse('missing', `${off.join(', ')}: count again, or say in the note why that is so.`, 'note');
}
