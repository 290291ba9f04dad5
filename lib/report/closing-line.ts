/**
 * One line of the balance by which a sale is closed: two sides, their difference, and the very things that explain it.
 * Beside the lines, what is unfinished though no sum shows it; and whether the sale closes with both as they are.
 */
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { type DrawerEntry, type DrawerMove, differenceInWords, reckonDrawer } from '#lib/drawer/drawer.ts';
import { compareLotNo, type LotNo } from '#lib/lot/number.ts';
import { addCents, type Cents, negate, showMoney, sumCents, sumOf } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Charge, Handed, SaleFacts } from '#lib/sale/facts.ts';
import { CLOSE_QUESTIONS, type CloseQuestion } from '#lib/sale/stage.ts';
import { isHandedOver, paidIn } from '#lib/seller/account.ts';
import type { SheetTotals } from '#lib/settlement/model.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { listed } from '#lib/settlement/spelling.ts';

interface NotedEntry extends DrawerEntry {
  readonly note: string;
}

export interface ClosingFacts {
  readonly facts: SaleFacts;
  readonly sheets: ReadonlyMap<number, { readonly number: number; readonly totals: SheetTotals }>;
  readonly invoices: ReadonlyMap<number, { readonly number: number; readonly totalCents: Cents }>;
  /** The seller numbers whose sheet, and the buyer numbers whose invoice, no longer says what is. */
  readonly oldSheets: ReadonlySet<number>;
  readonly oldInvoices: ReadonlySet<number>;
  /** The lots that are out of the hall, each with the buyer number that has it. */
  readonly handed: ReadonlyMap<LotNo, number>;
  /** The seller numbers with a partner who still has something to get. */
  readonly unpaid: ReadonlySet<number>;
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
  /** What the left side is made of, where that has to be said; none otherwise. */
  readonly leftParts: readonly Part[];
  readonly left: number;
  readonly rightWords: string;
  readonly parts: readonly Part[];
  readonly right: number;
  readonly difference: number;
  readonly why: readonly Why[];
}

type Own = Omit<ClosingLine, 'unit' | 'leftParts' | 'right' | 'difference'> &
  Partial<Pick<ClosingLine, 'unit' | 'leftParts'>>;

/** A line of money, unless it says another unit, whose right side is the sum of its parts; what explains nothing is left out. */
export function closingLine(own: Own): ClosingLine {
  const right = own.parts.reduce((so, { amount }) => so + amount, 0);
  const why = own.why.filter(({ amount }) => amount !== 0);
  return { unit: 'cents', leftParts: [], ...own, right, difference: own.left - right, why };
}

/**
 * Money in less money out against what lies in the drawer and the bank: payments, charges that were taken in cash,
 * and takings. Where the drawer was counted, the count is what lies there; money that was never in an open drawer counts
 * as it was recorded. What was over or short, and is explained by a note, stands beside the money in and out: the
 * association gained or lost it.
 */
export function moneyLine({ facts, drawer, moves }: Omit<ClosingFacts, 'sheets' | 'invoices'>): ClosingLine {
  const cash = facts.charges.filter(({ how }) => how === 'cash');
  const advances = sumOf(facts.charges.filter(isHandedOut), 'amountCents');
  // Kept before it came to the bank: it is nowhere, and nobody misses it.
  const fees = sumOf(facts.cardFees, 'feeCents');
  const checks = facts.payments.filter(({ direction, method }) => direction === 'out' && method === 'check');
  const stints = closedStints(drawer);
  const counts = stints.flatMap((stint) => countsOf(stint, moves));
  const noted = counts.filter(({ note }) => note.trim() !== '');
  const open = counts.filter(({ note }) => note.trim() === '');
  const lying = (method: Handed): Cents => {
    const moved = moves.filter((move) => move.method === method);
    const own = counts.filter((count) => count.method === method);
    return addCents(sumOf(moved, 'amountCents'), sumOf(own, 'differenceCents'));
  };
  const parts: Part[] = [
    {
      label: stints.length > 0 ? 'Cash, as counted, less the float: drawer or bank' : 'Cash',
      amount: lying('cash'),
    },
    { label: 'Checks taken', amount: lying('check') },
    { label: 'Cards', amount: lying('card') },
    { label: 'Other', amount: lying('other') },
    { label: 'Checks written, drawn on the bank', amount: negate(sumOf(checks, 'amountCents')) },
    ...(advances === 0 ? [] : [{ label: 'Advances handed out before', amount: negate(advances) }]),
    ...(fees === 0 ? [] : [{ label: 'Card fees that were kept', amount: negate(fees) }]),
  ];
  const recorded = sumCents([
    paidIn(facts.payments.filter(isHandedOver)),
    sumOf(cash, 'amountCents'),
    sumOf(facts.takings, 'amountCents'),
    negate(advances),
    negate(fees),
  ]);
  const off = noted.map(({ words, differenceCents }) => ({ label: words, amount: differenceCents }));
  return closingLine({
    name: 'money',
    title: 'The money is there',
    leftWords: `Money in less money out${off.length > 0 ? ', with what was over and short' : ''}`,
    leftParts: off.length > 0 ? [{ label: 'As recorded', amount: recorded }, ...off] : [],
    left: addCents(recorded, sumOf(noted, 'differenceCents')),
    rightWords:
      stints.length > 0
        ? 'In the drawer, as counted, or brought to the bank'
        : 'In the cash box and the bank, as recorded',
    parts,
    why: open.map(({ entryId, words, differenceCents }) => ({
      kind: 'drawer',
      ref: String(entryId),
      words: `the drawer: ${words.toLowerCase()}; count again, or close it with a note that says why`,
      amount: negate(differenceCents),
    })),
  });
}

/** An advance that comes back out of the proceeds was handed out before, from outside the drawer. */
function isHandedOut({ kind, how }: Charge): boolean {
  return kind === 'advance' && how === 'deducted';
}

/** What was counted over at all closings of the drawer, less what was short: income where it is above nothing. */
export function overShortOf({ drawer, moves }: Pick<ClosingFacts, 'drawer' | 'moves'>): Cents {
  const counts = closedStints(drawer).flatMap((stint) => countsOf(stint, moves));
  return sumOf(counts, 'differenceCents');
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

/** One kind of what is unfinished. `title` names the numbers: `Buyers 3, 7 and 12 have bought and have no invoice.` */
export interface Unfinished extends Pick<ClosingLine, 'title' | 'unit'> {
  readonly name: (typeof UNFINISHED)[number]['name'];
  /** Asked before the sale is closed; null where the closing report would be false with it, so that it is refused. */
  readonly question: CloseQuestion | null;
  /** What is done about it, or the question. */
  readonly ask: string;
  /** What is true of it in a sale that was closed with it. */
  readonly later: string;
  /** The closing report names all lots, where the words name a handful. */
  readonly why: readonly (Why & { readonly printed?: string })[];
}

const PICK_UP_LATER = 'Lots can also be handed over after the closing.';

/** In the order in which it is put right; `%` stands for has or have, `#` for the lots. */
const UNFINISHED = [
  { name: 'not_invoiced', says: '% bought and % no invoice', ask: 'Issue what is missing at the Till.', later: '' },
  {
    name: 'invoice_changed',
    says: '% an invoice that is no longer right',
    ask: 'Issue what corrects it at the Till.',
    later: '',
  },
  {
    name: 'sheet_changed',
    says: '% a sheet that is no longer right',
    ask: 'Issue what corrects it under Payout.',
    later: '',
  },
  { name: 'partner_unpaid', says: '% a partner who is not paid in full', ask: 'Put it right under Payout.', later: '' },
  {
    name: 'lots_not_handed',
    says: '% not picked up #',
    ask: `${PICK_UP_LATER} Close the sale?`,
    later: PICK_UP_LATER,
  },
  {
    name: 'sellers_without_sheet',
    says: 'had lots called and % no sheet',
    ask: 'They owe nothing and get nothing. Close the sale?',
    later: 'They owe nothing and get nothing.',
  },
] as const;

/** What is unfinished, of each kind that there is. What a line of the balance names already is not said twice. */
export function unfinishedOf(closing: ClosingFacts, lines: readonly ClosingLine[]): Unfinished[] {
  const { facts, handed } = closing;
  const billed = namedBy(lines, ['invoices']);
  const settled = namedBy(lines, ['hammer', 'sheets']);
  const paid = namedBy(lines, ['sellers']);
  const buyers = buyerAccounts(facts).map(({ buyerNo, invoice: { rows } }) => {
    const bought = rows.map(({ lotNo }) => lotNo);
    return { buyerNo, bought, lots: bought.filter((lotNo) => handed.get(lotNo) !== buyerNo) };
  });
  const sellers = settleSale(facts).filter(({ sellerNo }) => !settled.has(String(sellerNo)));
  const found: Readonly<Record<Unfinished['name'], Unfinished['why']>> = {
    not_invoiced: buyers
      .filter(({ buyerNo, bought }) => bought.length > 0 && !closing.invoices.has(buyerNo))
      .map(({ buyerNo }) => left('buyer', buyerNo, ' has no invoice: issue it')),
    invoice_changed: buyers
      .filter(({ buyerNo }) => closing.oldInvoices.has(buyerNo) && !billed.has(String(buyerNo)))
      .map(({ buyerNo }) => left('buyer', buyerNo, ': the invoice is no longer what was bought; issue another')),
    sheet_changed: sellers
      .filter(({ sellerNo }) => closing.oldSheets.has(sellerNo))
      .map(({ sellerNo }) => left('seller', sellerNo, ': the sheet is no longer right; issue the correction sheet')),
    partner_unpaid: [...closing.unpaid]
      .filter((sellerNo) => !paid.has(String(sellerNo)))
      .map((sellerNo) => left('seller', sellerNo, ': one partner is not paid in full, another too much')),
    lots_not_handed: buyers
      .filter(({ lots }) => lots.length > 0)
      .map(({ buyerNo, lots }) => {
        const why = left('buyer', buyerNo, ` has not picked up ${lotWords(lots)}`, lots.length);
        return { ...why, printed: `buyer ${buyerNo} has not picked up ${lotWords(lots, lots.length)}` };
      }),
    sellers_without_sheet: sellers
      .filter(({ sellerNo, rows }) => rows.length > 0 && !closing.sheets.has(sellerNo))
      .map(({ sellerNo }) => left('seller', sellerNo, ' had lots called and has no sheet')),
  };
  const onTables = buyers.flatMap(({ lots }) => lots).sort(compareLotNo);
  return UNFINISHED.filter(({ name }) => found[name].length > 0).map(({ name, says, ask, later }) => {
    const why = found[name];
    const question = CLOSE_QUESTIONS.find((one) => one === name) ?? null;
    const words = says.replaceAll('%', why.length === 1 ? 'has' : 'have').replace('#', lotWords(onTables, MOST_LOTS));
    const who = `${why[0]?.kind === 'buyer' ? 'Buyer' : 'Seller'}${why.length === 1 ? '' : 's'}`;
    return {
      name,
      question,
      ask,
      later,
      unit: 'lots',
      why,
      title: `${who} ${handful(why.map(({ ref }) => ref))} ${words}.`,
    };
  });
}

/** The numbers of the buyers, or of the sellers, that some lines of the balance name. */
function namedBy(lines: readonly ClosingLine[], names: readonly ClosingName[]): Set<string> {
  return new Set(lines.filter(({ name }) => names.includes(name)).flatMap(({ why }) => why.map(({ ref }) => ref)));
}

function left(kind: 'buyer' | 'seller', no: number, what: string, amount = 1): Unfinished['why'][number] {
  return { kind, ref: String(no), words: `${kind} ${no}${what}`, amount };
}

const HANDFUL = 5;
const MOST_LOTS = 12;

/** Names in a sentence, the first of them where there are many: `3, 7, 12, 13, 14 and 4 more`. */
function handful(names: readonly string[], most: number = HANDFUL): string {
  const more = names.length - most;
  return listed(more > 0 ? [...names.slice(0, most), `${more} more`] : names);
}

/** `lot 3`, `lots 3, 7 and 12`, with as many numbers as are wanted. */
function lotWords(lots: readonly LotNo[], most: number = HANDFUL): string {
  return `${lots.length === 1 ? 'lot' : 'lots'} ${handful(lots, most)}`;
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
  const open = lines.filter(isOpenLine).map((line) => `${line.title}: ${offWords(line)} (${named(line.why)}).`);
  const stops = unfinished.filter(({ question }) => question === null).map(({ title, ask }) => `${title} ${ask}`);
  if (open.length + stops.length > 0) {
    const first = open.length > 0 ? 'The sale closes only at zero.' : 'The sale cannot be closed yet.';
    return refuse('conflict', [first, ...open, ...stops, 'See the balance under Payout.'].join(' '), 'stage');
  }
  const asked = unfinished.find(({ question }) => question !== null && !answered.includes(question));
  return asked?.question ? refuse('needs_answer', `${asked.title} ${asked.ask}`, asked.question) : accept(null);
}

function offWords(line: ClosingLine): string {
  return line.difference === 0 ? 'at zero, but not for each' : `${sizeWords(line, line.difference)} off`;
}

/** How much it is, whichever way: inside a sentence no amount has a sign. */
export function sizeWords(line: Pick<ClosingLine, 'unit'>, amount: number): string {
  return amountWords(line, Math.abs(amount));
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
