/**
 * One line of the balance by which a sale is closed: two sides, their difference, and the very things that explain it.
 * Beside the lines, what is unfinished though no sum shows it; and whether the sale closes with both as they are.
 */
import { type DrawerEntry, type DrawerMove, differenceInWords, reckonDrawer } from '#lib/drawer/drawer.ts';
import type { LotNo } from '#lib/lot/number.ts';
import { addCents, type Cents, negate, showMoney, sumOf } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { countWords } from '#lib/result/text.ts';
import type { Method, SaleFacts } from '#lib/sale/facts.ts';
import type { CloseQuestion } from '#lib/sale/stage.ts';
import { paidIn } from '#lib/seller/account.ts';
import type { SheetTotals } from '#lib/settlement/model.ts';
import { listed } from '#lib/settlement/spelling.ts';

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

/** How far the papers and the lots of each buyer and seller number have come. */
export interface Progress {
  readonly buyers: readonly BuyerProgress[];
  readonly sellers: readonly SellerProgress[];
}

export interface BuyerProgress {
  readonly buyerNo: number;
  readonly bought: readonly LotNo[];
  /** Those of them that were not handed over to this buyer, or came back. */
  readonly notHanded: readonly LotNo[];
  /** The newest one, and whether it still says what was bought; null where none was issued. */
  readonly invoice: { readonly number: number; readonly stillTrue: boolean } | null;
}

export interface SellerProgress {
  readonly sellerNo: number;
  readonly lotsCalled: number;
  readonly sheetNumber: number | null;
  /** The sums are no longer those of the newest sheet. */
  readonly changed: boolean;
  /** A partner still has something to get. */
  readonly unpaid: boolean;
}

type UnfinishedName = 'not_invoiced' | 'invoice_changed' | 'sheet_changed' | 'partner_unpaid' | CloseQuestion;

/** One buyer or seller number with something unfinished. */
interface Left extends Pick<Why, 'words'> {
  readonly kind: 'buyer' | 'seller';
  readonly no: number;
  /** The lots it is about, where it is about some. */
  readonly lots: readonly LotNo[];
}

/** One kind of what is unfinished. */
export interface Unfinished {
  readonly name: UnfinishedName;
  /** Asked before the sale is closed; null where the closing report would be false with it, so that it is refused. */
  readonly question: CloseQuestion | null;
  /** Names the numbers, a handful at most: `Buyers 3, 7 and 12 have bought and have no invoice.` What to do follows. */
  readonly sentence: string;
  readonly left: readonly Left[];
}

/**
 * What is unfinished, one of each kind that there is, in the order in which it is put right. What a line of the balance
 * names already is not said twice.
 */
export function unfinishedOf({ buyers, sellers }: Progress, lines: readonly ClosingLine[]): Unfinished[] {
  const billed = namedBy(lines, ['invoices']);
  const settled = namedBy(lines, ['hammer', 'sheets']);
  const paid = namedBy(lines, ['sellers']);
  const called = sellers.filter(({ sellerNo }) => !settled.has(String(sellerNo)));
  const kinds: readonly Omit<Unfinished, 'sentence'>[] = [
    {
      ...{ name: 'not_invoiced', question: null },
      left: buyers
        .filter(({ invoice, bought }) => invoice === null && bought.length > 0)
        .map(({ buyerNo }) => leftBy('buyer', buyerNo, ' has no invoice: issue it')),
    },
    {
      ...{ name: 'invoice_changed', question: null },
      left: buyers
        .filter(({ buyerNo, invoice }) => invoice?.stillTrue === false && !billed.has(String(buyerNo)))
        .map(({ buyerNo, invoice }) =>
          leftBy(
            'buyer',
            buyerNo,
            `: invoice ${invoice?.number} is no longer what was bought; issue the correcting one`,
          ),
        ),
    },
    {
      ...{ name: 'sheet_changed', question: null },
      left: called
        .filter(({ changed }) => changed)
        .map(({ sellerNo, sheetNumber }) =>
          leftBy('seller', sellerNo, `: sheet ${sheetNumber} is no longer right; issue the correction sheet`),
        ),
    },
    {
      ...{ name: 'partner_unpaid', question: null },
      left: sellers
        .filter(({ sellerNo, unpaid }) => unpaid && !paid.has(String(sellerNo)))
        .map(({ sellerNo }) => leftBy('seller', sellerNo, ': one partner is not paid in full, another too much')),
    },
    {
      ...{ name: 'lots_not_handed', question: 'lots_not_handed' },
      left: buyers
        .filter(({ notHanded }) => notHanded.length > 0)
        .map(({ buyerNo, notHanded }) => {
          const lots = `${notHanded.length === 1 ? 'lot' : 'lots'} ${handful(notHanded)}`;
          return leftBy('buyer', buyerNo, `: ${lots} not handed over`, notHanded);
        }),
    },
    {
      ...{ name: 'sellers_without_sheet', question: 'sellers_without_sheet' },
      left: called
        .filter(({ lotsCalled, sheetNumber }) => lotsCalled > 0 && sheetNumber === null)
        .map(({ sellerNo }) => leftBy('seller', sellerNo, ' had lots called and has no sheet')),
    },
  ];
  return kinds
    .filter(({ left }) => left.length > 0)
    .map((kind) => ({ ...kind, sentence: `${whose(kind.left)} ${WHAT_IS_LEFT[kind.name](kind.left)}.` }));
}

const has = ({ length }: readonly Left[]) => (length === 1 ? 'has' : 'have');

/** What is said of the numbers, which stand before it. */
const WHAT_IS_LEFT: Readonly<Record<UnfinishedName, (left: readonly Left[]) => string>> = {
  not_invoiced: (left) => `${has(left)} bought and ${has(left)} no invoice`,
  invoice_changed: (left) => `${has(left)} an invoice that is no longer what was bought`,
  sheet_changed: (left) => `${has(left)} a sheet that is no longer right`,
  partner_unpaid: (left) => `${has(left)} a partner who is not paid in full`,
  lots_not_handed: (left) => {
    const lots = left.reduce((sum, one) => sum + one.lots.length, 0);
    return `${has(left)} ${countWords(lots, 'lot')} not handed over`;
  },
  sellers_without_sheet: (left) => `had lots called and ${has(left)} no sheet`,
};

/** The numbers of the buyers, or of the sellers, that some lines of the balance name. */
function namedBy(lines: readonly ClosingLine[], names: readonly ClosingName[]): Set<string> {
  return new Set(lines.filter(({ name }) => names.includes(name)).flatMap(({ why }) => why.map(({ ref }) => ref)));
}

function leftBy(kind: Left['kind'], no: number, what: string, lots: readonly LotNo[] = []): Left {
  return { kind, no, words: `${kind} ${no}${what}`, lots };
}

/** `Buyers 3, 7 and 12`, or `Seller 4`. */
function whose(left: readonly Left[]): string {
  const noun = left[0]?.kind === 'buyer' ? 'Buyer' : 'Seller';
  return `${left.length === 1 ? noun : `${noun}s`} ${handful(left.map(({ no }) => String(no)))}`;
}

const HANDFUL = 5;

/** Names in a sentence, the first of them where there are many: `3, 7, 12, 13, 14 and 4 more`. */
function handful(names: readonly string[]): string {
  const more = names.length - HANDFUL;
  return listed(more > 0 ? [...names.slice(0, HANDFUL), `${more} more`] : names);
}

/** What is done about each kind that keeps a sale open. */
const TO_DO: Readonly<Partial<Record<UnfinishedName, string>>> = {
  not_invoiced: 'Issue what is missing at the Till.',
  invoice_changed: 'Issue what corrects it at the Till.',
  sheet_changed: 'Issue what corrects it under Payout.',
  partner_unpaid: 'Take in what one has too much, and pay the other, under Payout.',
};

/** The sentence with what is done about it, or with the question. */
export function unfinishedInWords({ name, sentence }: Unfinished): string {
  return `${sentence} ${TO_DO[name] ?? 'Close all the same?'}`;
}

const MOST_NAMED = 3;

/** What is named in a line is open also where all of it comes to zero: one buyer's debt is not paid by another. */
export function isOpenLine({ difference, why }: ClosingLine): boolean {
  return difference !== 0 || why.length > 0;
}

export interface CloseContext {
  readonly lines: readonly ClosingLine[];
  readonly drawerOpen: boolean;
  readonly unfinished: readonly Unfinished[];
  /** The questions that were answered with yes. */
  readonly answered: readonly CloseQuestion[];
}

/**
 * Whether a sale may be closed: when every line of its balance is at zero, the drawer is put away, and nothing is
 * unfinished that would make its report false. What may honestly be left is asked, one question after the other.
 */
export function decideClose({ lines, drawerOpen, unfinished, answered }: CloseContext): Result<null> {
  if (drawerOpen) {
    const message = 'The sale does not close while the drawer is open: count and close it at the Till.';
    return refuse('conflict', message, 'stage');
  }
  const sentences = lines.filter(isOpenLine).map((line) => `${line.title}: ${offWords(line)} (${named(line.why)}).`);
  const stops = unfinished.filter(({ question }) => question === null).map(unfinishedInWords);
  if (sentences.length > 0) {
    const message = ['The sale closes only at zero.', ...sentences, ...stops, 'See the balance under Payout.'].join(
      ' ',
    );
    return refuse('conflict', message, 'stage');
  }
  if (stops.length > 0) {
    return refuse('conflict', ['The sale cannot be closed yet.', ...stops].join(' '), 'stage');
  }
  const asked = unfinished.find(({ question }) => question !== null && !answered.includes(question));
  return asked?.question ? refuse('needs_answer', unfinishedInWords(asked), asked.question) : accept(null);
}

function offWords(line: ClosingLine): string {
  return line.difference === 0 ? 'at zero, but not for each' : `${amountWords(line, line.difference)} off`;
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
