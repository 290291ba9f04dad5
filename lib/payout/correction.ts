/** A correction sheet: what an issued sheet said, what is right now, and what is still to pay or to get back. */
import { addCents, type Cents, negate, showMoney, subtractCents, sumCents, ZERO } from '#lib/money.ts';
import type { PartnerAccount } from '#lib/payout/accounts.ts';
import { figures, headOf, tableOf, text } from '#lib/report/make.ts';
import type { Report, ReportTable } from '#lib/report/model.ts';
import type { SettlementSheet, SheetLot, SheetTotals } from '#lib/sheet/model.ts';
import { clean, figure, withoutSign } from '#lib/sheet/spell.ts';

/** The finished model: `now` is the whole settlement as it stands, `report` what has changed in it. */
export interface CorrectionSheet {
  readonly paper: 'correction-sheet';
  readonly version: 1;
  readonly corrects: number;
  readonly reason: string;
  readonly now: SettlementSheet;
  readonly report: Report;
  /** Net now less net before. */
  readonly differenceCents: Cents;
  /** Still to pay to all partners; below nothing, to get back. */
  readonly owingCents: Cents;
}

/** True where a fresh sheet would say other figures than an issued one. */
export function sheetChanged(issued: SettlementSheet, fresh: SettlementSheet): boolean {
  return figuresOf(issued) !== figuresOf(fresh);
}

function figuresOf({ totals, shares, counted, beside, charges }: SettlementSheet): string {
  const lots = [...counted, ...beside].flatMap((group) => group.lots.map((lot) => [group.kind, ...lotCells(lot)]));
  const own = shares.map(({ personId, parts, share }) => [personId, parts, share.cents]);
  const lines = Object.keys(totals).sort();
  const sums = lines.map((name) => totals[name as keyof SheetTotals]);
  return JSON.stringify([
    sums,
    own,
    lots.map(String).sort(),
    charges.map(({ label, how, amount }) => [label, how, amount.cents]),
  ]);
}

function lotCells(lot: SheetLot): string[] {
  const { lotNo, outcome, goods, quantity, price, amount, commission, fees, net } = lot;
  return [lotNo, outcome, goods, quantity.words, price.words, amount.words, commission.words, fees.words, net.words];
}

export interface Correcting {
  readonly before: SettlementSheet;
  /** The sheet as it would be issued now, with its new number. */
  readonly now: SettlementSheet;
  /** The partners' accounts over the shares of `now`. */
  readonly accounts: readonly PartnerAccount[];
  readonly reason: string;
}

/** Makes the finished sheet. Throws where the older sheet has no number: a preview cannot be corrected. */
export function correctionSheet({ before, now, accounts, reason }: Correcting): CorrectionSheet {
  if (before.number === null) throw new RangeError('a preview is not corrected');
  const owingCents = sumCents(accounts.map((account) => account.owingCents));
  const differenceCents = subtractCents(now.totals.netCents, before.totals.netCents);
  return {
    paper: 'correction-sheet',
    version: 1,
    corrects: before.number,
    reason: clean(reason),
    now,
    report: reportOn({ before, now, accounts, reason }, owingCents),
    differenceCents,
    owingCents,
  };
}

function reportOn(correcting: Correcting, owingCents: Cents): Report {
  const { before, now, accounts, reason } = correcting;
  const { association, sale, issuedOn } = now;
  return {
    paper: 'report',
    version: 1,
    kind: 'correction',
    title: `Correction of sheet ${before.number}`,
    mark: `Seller ${now.sellerNo}`,
    issuedOn,
    issuedWords: `${now.numberWords} · ${now.issuedWords}`,
    head: headOf(now.head),
    association,
    sale: { name: sale.name, words: sale.words, currency: sale.currency },
    facts: [
      { label: 'For', words: now.partners.map(({ name }) => name).join(', ') },
      { label: 'Why', words: clean(reason) },
      {
        label: 'Corrects',
        words: `sheet ${before.number}, ${before.issuedWords.toLowerCase()}; that sheet stays as it was`,
      },
      { label: resultLabel(owingCents), words: withoutSign(owingCents) },
    ],
    tables: [sumsTable(before.totals, now.totals), lotsTable(before, now), partnersTable(now, accounts)],
    remarks: [],
    caution: now.caution,
    wide: false,
  };
}

/** Said so that nobody has to read a minus sign. */
export function resultLabel(owingCents: Cents): string {
  if (owingCents > ZERO) return 'Still to be paid to you';
  return owingCents < ZERO ? 'Please pay back to the association' : 'Nothing is left to pay';
}

const SUMS: readonly (readonly [string, (totals: SheetTotals) => Cents])[] = [
  ['Gross proceeds', (one) => one.grossCents],
  ['Commission', (one) => negate(one.commissionCents)],
  ['Fees', (one) => negate(addCents(one.lotFeesCents, one.noSaleFeesCents))],
  ['Seller number', (one) => negate(one.sellerNumberFeeCents)],
  ['Charges', (one) => negate(one.chargesCents)],
];

function sumsTable(before: SheetTotals, now: SheetTotals): ReportTable {
  const row = (label: string, of: (totals: SheetTotals) => Cents) => compared(label, of(before), of(now));
  return tableOf({
    title: 'The sums',
    columns: [text('', 4), figures('Before', 2), figures('Now', 2), figures('Difference', 2)],
    rows: SUMS.map(([label, of]) => row(label, of)),
    sum: row('Net', (totals) => totals.netCents),
    none: '',
  });
}

function compared(label: string, before: Cents, now: Cents): string[] {
  return [label, showMoney(before), showMoney(now), signed(subtractCents(now, before))];
}

/** A difference with its sign, so that nobody takes one to get back for one to pay. */
export function signed(amount: Cents): string {
  return amount > ZERO ? `+${showMoney(amount)}` : showMoney(amount);
}

function lotsTable(before: SettlementSheet, now: SettlementSheet): ReportTable {
  const [was, is] = [lotsOf(before), lotsOf(now)];
  const numbers = [...new Set([...was.keys(), ...is.keys()])];
  const changed = numbers.filter((no) => String(cellsOf(was.get(no))) !== String(cellsOf(is.get(no))));
  return tableOf({
    title: 'The lots that changed',
    columns: [
      text('Lot', 1),
      text('Before', 4),
      figures('Net', 2),
      text('Now', 4),
      figures('Net', 2),
      figures('Difference', 2),
    ],
    rows: changed.map((no) => lotRow(no, was.get(no), is.get(no))),
    none: 'No lot has changed: the difference is in what was charged or in the shares.',
  });
}

function lotsOf({ counted, beside }: SettlementSheet): Map<string, SheetLot> {
  return new Map([...counted, ...beside].flatMap(({ lots }) => lots.map((lot) => [lot.lotNo, lot] as const)));
}

function cellsOf(lot: SheetLot | undefined): string[] {
  return lot === undefined ? [] : [...lotCells(lot), String(lot.donated)];
}

function lotRow(no: string, was: SheetLot | undefined, is: SheetLot | undefined): string[] {
  const net = (lot: SheetLot | undefined) => lot?.net.cents ?? ZERO;
  const difference = signed(subtractCents(net(is), net(was)));
  return [no, saidOf(was), figure(net(was)).words, saidOf(is), figure(net(is)).words, difference];
}

const OUTCOMES = { sold: 'sold', passed: 'no-sale', withdrawn: 'withdrawn', waiting: 'not called' } as const;

function saidOf(lot: SheetLot | undefined): string {
  if (lot === undefined) return 'not on the sheet';
  const price = lot.outcome === 'sold' ? ` at ${lot.price.words}` : '';
  const given = lot.donated ? ', donated' : '';
  return `${lot.goods}, ${lot.quantity.words}, ${OUTCOMES[lot.outcome]}${price}${given}`;
}

function partnersTable(now: SettlementSheet, accounts: readonly PartnerAccount[]): ReportTable {
  const names = new Map(now.shares.map(({ personId, name }) => [personId, name]));
  return tableOf({
    title: 'What each is still to get, or to pay back',
    columns: [
      text('Who', 4),
      figures('Share now', 2),
      figures('Paid so far', 2),
      figures('Difference', 2),
      text('', 2),
    ],
    rows: accounts.map(({ personId, shareCents, paidCents, owingCents }) => {
      const what = owingCents > ZERO ? 'to pay' : owingCents < ZERO ? 'to get back' : 'even';
      return [names.get(personId) ?? personId, showMoney(shareCents), showMoney(paidCents), signed(owingCents), what];
    }),
    none: '',
  });
}
