/** A correction sheet: what an issued sheet said, what is right now, and what is still to pay or to get back. */
import {
  addCents,
  amountInWords,
  type Cents,
  negate,
  showMoney,
  subtractCents,
  sumOf,
  ZERO,
} from '#lib/money/money.ts';
import { FATE_WORDS, OUTCOME_WORDS } from '#lib/outcome/words.ts';
import type { PaperContext } from '#lib/paper/facts.ts';
import { cell, type ListPaper, type ListTable, listPaper, tableOf } from '#lib/paper/list.ts';
import type { CheckSeller } from '#lib/payment/checks.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Stage } from '#lib/sale/facts.ts';
import type { PartnerAccount } from '#lib/seller/account.ts';
import { decideIssueStage } from './decide-issue.ts';
import type { SettlementSheet, SheetLot, SheetTotals } from './model.ts';
import type { SheetFigures } from './sheet.ts';
import { clean, figure, lower, withoutSign } from './spelling.ts';

/** The finished model: `now` is the whole settlement as it stands, `report` what has changed in it. */
export interface CorrectionSheet {
  readonly paper: 'correction-sheet';
  readonly version: 2;
  readonly corrects: number;
  readonly reason: string;
  readonly now: SettlementSheet;
  readonly report: ListPaper;
  readonly differenceCents: Cents;
  /** Still to pay to all partners; below nothing, to get back. */
  readonly owingCents: Cents;
}

/** True where a fresh sheet would say other figures than an issued one. */
export function sheetChanged(issued: SheetFigures, fresh: SheetFigures): boolean {
  return figuresOf(issued) !== figuresOf(fresh);
}

function figuresOf({ totals, shares, counted, beside, charges }: SheetFigures): string {
  const lots = [...counted, ...beside].flatMap((group) => group.lots.map((lot) => [group.kind, ...lotFigures(lot)]));
  const own = shares.map(({ personId, parts, share }) => [personId, parts, share.cents]);
  const sums = Object.entries(totals).sort();
  const charged = charges.map(({ kind, how, amount }) => [kind, how, amount.cents]);
  return JSON.stringify([sums, own, lots.map(String).sort(), charged]);
}

/** Figures and not words: a sheet of an older wording is no sheet whose sums have changed. */
function lotFigures({ lotNo, outcome, fate, quantity, price, amount, ...more }: SheetLot): (string | number)[] {
  const { commission, fees, net } = more;
  const cents = [amount, commission, fees, net].map((figure) => figure.cents);
  return [lotNo, outcome, fate ?? '', quantity.figure, price.cents ?? '', ...cents];
}

/** What a sheet that is no longer right says, what is right now, and what is left to pay. */
export interface Outdated {
  readonly sheetCents: Cents;
  readonly nowCents: Cents;
  /** Still to pay to all partners by what is right now; below nothing, to get back. */
  readonly owingCents: Cents;
  readonly words: string;
}

/** The one place that says so: the Payout list, the seller's page and the correction sheet tell the same sums. */
export function outdatedSheet(
  { totals, number }: Pick<SettlementSheet, 'totals' | 'number'>,
  now: Pick<SheetTotals, 'netCents'>,
  { accounts, currency }: { readonly accounts: readonly PartnerAccount[]; readonly currency: string },
): Outdated {
  const [sheetCents, nowCents] = [totals.netCents, now.netCents];
  const say = (amount: Cents) => amountInWords(amount, currency);
  const today = sheetCents === nowCents ? `the same ${say(nowCents)}, made up differently` : say(nowCents);
  return {
    ...{ sheetCents, nowCents, owingCents: sumOf(accounts, 'owingCents') },
    words: `Sheet ${number} says ${say(sheetCents)}; now ${today}. Issue a correction.`,
  };
}

export interface Correcting {
  readonly context: PaperContext;
  readonly before: SettlementSheet;
  /** The sheet as it would be issued now, with its new number. */
  readonly now: SettlementSheet;
  readonly accounts: readonly PartnerAccount[];
  readonly reason: string;
}

/** Makes the finished sheet. Throws where the older sheet has no number: a preview cannot be corrected. */
export function correctionSheet(correcting: Correcting): CorrectionSheet {
  const { before, now, accounts, reason } = correcting;
  if (before.number === null) throw new RangeError('a preview is not corrected');
  const owingCents = sumOf(accounts, 'owingCents');
  const differenceCents = subtractCents(now.totals.netCents, before.totals.netCents);
  return {
    paper: 'correction-sheet',
    version: 2,
    corrects: before.number,
    reason: clean(reason),
    now,
    report: reportOn(correcting, owingCents),
    differenceCents,
    owingCents,
  };
}

function reportOn({ context, before, now, accounts, reason }: Correcting, owingCents: Cents): ListPaper {
  return listPaper(context, {
    title: `Correction of sheet ${before.number}`,
    issuedWords: `${now.numberWords}, ${lower(now.issuedWords)}`,
    number: { label: 'Seller', words: String(now.sellerNo) },
    parties: now.partners.map(({ name, address }) => ({ title: name, sentences: address })),
    opening: [
      `Sheet ${before.number} (${lower(before.issuedWords)}) stays as it was; this one says what is right now.`,
      `Why: ${clean(reason)}`,
      `${resultLabel(owingCents)}: ${withoutSign(owingCents)}`,
    ],
    tables: [sumsTable(before.totals, now.totals), lotsTable(before, now), partnersTable(now, accounts)],
    caution: now.caution,
  });
}

const RESULTS = { pay: 'Still to be paid to you', back: 'Please pay back to the association' } as const;

function resultLabel(owingCents: Cents): string {
  if (owingCents > ZERO) return RESULTS.pay;
  return owingCents < ZERO ? RESULTS.back : 'Nothing is left to pay';
}

/**
 * The settlement as it is printed behind a correction: what its sums are now. What is left to pay, less what was paid,
 * is said by the correction alone; a sheet by itself would ask for it a second time. The frozen copy keeps its words.
 */
function sheetBehindCorrection(sheet: SettlementSheet): SettlementSheet {
  return {
    ...sheet,
    result: {
      kind: 'net',
      label: 'Net proceeds, corrected',
      words: showMoney(sheet.totals.netCents),
      sentence: 'What is left to pay is on the correction that comes with this sheet.',
    },
    sharesTitle: sheet.shares.length > 1 ? 'Share of each partner, corrected' : 'Share, corrected',
    shares: sheet.shares.map((one) => ({ ...one, share: figure(one.share.cents) })),
  };
}

const HOW_LEFT = 'What is left is the corrected share, less what was paid so far.';

/**
 * The correction as it is printed, with one total in large type. Where one partner gets more and another pays back,
 * their sum is nobody's to pay: each is told their own.
 */
function printedCorrection(
  { report, owingCents }: Pick<CorrectionSheet, 'report' | 'owingCents'>,
  currency: string,
): ListPaper {
  const rows = report.tables.at(-1)?.rows ?? [];
  const own = rows
    .map((row) => row.map(({ words }) => words))
    .map(([name = '', , , toPay = '', toGetBack = '']) => ({ name, toPay, toGetBack }));
  const mixed = own.some(({ toPay }) => toPay !== '') && own.some(({ toGetBack }) => toGetBack !== '');
  const opening = report.opening.slice(0, -1);
  if (!mixed) {
    // In large type the few words that fit beside the figure; whose it is stands at the top of the paper.
    const label = owingCents < ZERO ? 'Please pay back' : resultLabel(owingCents);
    const total = { label, words: `${withoutSign(owingCents)} ${currency}` };
    return { ...report, result: total, opening: [...opening, HOW_LEFT] };
  }
  const each = own
    .filter(({ toPay, toGetBack }) => toPay !== toGetBack)
    .map(({ name, toPay, toGetBack }) =>
      toPay === '' ? `${name}, ${lower(RESULTS.back)}: ${toGetBack}` : `${name}, ${lower(RESULTS.pay)}: ${toPay}`,
    );
  return { ...report, opening: [...opening, ...each, HOW_LEFT] };
}

export interface IssuedPaper {
  readonly sheet: SettlementSheet;
  readonly correction: Pick<CorrectionSheet, 'report' | 'owingCents'> | null;
}

/** An issued sheet as it is shown and printed: a first one as it is frozen, a correction so that one paper says what is left to pay. */
export function asPrinted({ sheet, correction }: IssuedPaper): { sheet: SettlementSheet; report: ListPaper | null } {
  if (!correction) return { sheet, report: null };
  return { sheet: sheetBehindCorrection(sheet), report: printedCorrection(correction, sheet.sale.currency) };
}

const SUMS: readonly (readonly [string, (totals: SheetTotals) => Cents])[] = [
  ['Gross proceeds', (one) => one.grossCents],
  ['Commission', (one) => negate(one.commissionCents)],
  ['Fees', (one) => negate(addCents(one.lotFeesCents, one.noSaleFeesCents))],
  ['Seller number', (one) => negate(one.sellerNumberFeeCents)],
  ['Charges', (one) => negate(one.chargesCents)],
  ['Net', (one) => one.netCents],
];

function sumsTable(before: SheetTotals, now: SheetTotals): ListTable {
  return tableOf(
    SUMS,
    [
      ['words', '', ([label]) => label],
      ['money', 'Before', ([, sum]) => showMoney(sum(before))],
      ['money', 'Now', ([, sum]) => showMoney(sum(now))],
      ['money', 'Difference', ([, sum]) => signed(subtractCents(sum(now), sum(before)))],
    ],
    { title: 'The sums' },
  );
}

/** A difference with its sign, so that nobody takes one to get back for one to pay. */
function signed(amount: Cents): string {
  return amount > ZERO ? `+${showMoney(amount)}` : showMoney(amount);
}

function lotsTable(before: SettlementSheet, now: SettlementSheet): ListTable {
  const [was, is] = [lotsOf(before), lotsOf(now)];
  const numbers = [...new Set([...was.keys(), ...is.keys()])];
  const changed = numbers.filter((no) => String(cellsOf(was.get(no))) !== String(cellsOf(is.get(no))));
  const net = (lot: SheetLot | undefined) => lot?.net.cents ?? ZERO;
  return tableOf(
    changed.map((no) => ({ no, old: was.get(no), fresh: is.get(no) })),
    [
      ['lot', 'Lot', ({ no }) => no],
      ['words', 'Before, and now', ({ old, fresh }) => cell(saidOf(old), `now: ${saidOf(fresh)}`)],
      ['money', 'Net before', ({ old }) => showMoney(net(old))],
      ['money', 'Net now', ({ fresh }) => showMoney(net(fresh))],
      ['money', 'Difference', ({ old, fresh }) => signed(subtractCents(net(fresh), net(old)))],
    ],
    {
      title: 'The lots that changed',
      none: 'No lot has changed: the difference is in what was charged or in the shares.',
    },
  );
}

function lotsOf({ counted, beside }: SettlementSheet): Map<string, SheetLot> {
  return new Map([...counted, ...beside].flatMap(({ lots }) => lots.map((lot) => [lot.lotNo, lot] as const)));
}

function cellsOf(lot: SheetLot | undefined): string[] {
  if (lot === undefined) return [];
  const { lotNo, outcome, fate = '', goods, quantity, price, amount, commission, fees, net, donated } = lot;
  const figures = [quantity, price, amount, commission, fees, net].map(({ words }) => words);
  return [lotNo, outcome, fate, goods, ...figures, String(donated)];
}

const OUTCOMES = { ...OUTCOME_WORDS, waiting: 'not called' } as const;

function saidOf(lot: SheetLot | undefined): string {
  if (lot === undefined) return 'not on the sheet';
  const price = lot.price.kind === 'hammer' ? ` at ${lot.price.words}` : '';
  const fate = lot.fate ? `, ${FATE_WORDS[lot.fate]}` : '';
  const given = lot.donated ? ', donated' : '';
  return `${lot.goods}, ${lot.quantity.words}, ${OUTCOMES[lot.outcome]}${price}${fate}${given}`;
}

function partnersTable(now: SettlementSheet, accounts: readonly PartnerAccount[]): ListTable {
  const names = new Map(now.shares.map(({ personId, name }) => [personId, name]));
  return tableOf(
    accounts,
    [
      ['words', 'Who', ({ personId }) => names.get(personId) ?? personId],
      ['money', 'Share now', ({ shareCents }) => showMoney(shareCents)],
      ['money', 'Paid, set off or written off', ({ paidCents }) => showMoney(paidCents)],
      ['money', 'Still to pay', ({ owingCents }) => (owingCents > ZERO ? showMoney(owingCents) : '')],
      ['money', 'To get back', ({ owingCents }) => (owingCents < ZERO ? withoutSign(owingCents) : '')],
    ],
    { title: 'What each has had, and what is left' },
  );
}

/** Whether a further sheet may correct the newest one. Accepts with the number of the sheet that is corrected. */
export function decideCorrectionSheet(
  stage: Stage,
  seller: Omit<CheckSeller, 'waitsFor' | 'accounts'>,
): Result<number> {
  const { sellerNo, sheetNumber, changed } = seller;
  const allowed = decideIssueStage(stage);
  if (!allowed.ok) return allowed;
  if (sheetNumber === null) {
    return refuse('wrong_stage', `Seller number ${sellerNo} has no sheet yet: issue the first one.`, 'sellerNo');
  }
  if (changed) return accept(sheetNumber);
  const message = `Sheet ${sheetNumber} of seller number ${sellerNo} is still right: there is nothing to correct.`;
  return refuse('already', message, 'sellerNo');
}
