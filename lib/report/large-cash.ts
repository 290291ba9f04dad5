/**
 * Who paid more than 10,000.00 in cash as a buyer within twelve months, over all sales. A business that takes that much
 * in one transaction or in related ones may have to report it (26 U.S.C. 6050I, docs/trade.md). Which payments belong
 * together the program cannot know, so it lists all of them and says whose it is to judge.
 */
import { longDate, yearOf } from '#lib/date/date.ts';
import { type Cents, cents, formatMoney, showMoney, sumOf } from '#lib/money/money.ts';
import type { PaperGround } from '#lib/paper/facts.ts';
import { type ListPaper, type ListTable, NO_ADVICE, tableOf } from '#lib/paper/list.ts';
import { compareCodePoints, groupBy } from '#lib/result/text.ts';
import { addressLines, clean, joined } from '#lib/settlement/spelling.ts';
import {
  comparePeople,
  PERSON_COLUMNS,
  paperOfYear,
  personCells,
  saleInWords,
  type YearFacts,
  type YearPerson,
} from './year.ts';

/** More than this much has to be reported; this much itself has not. */
const LIMIT = cents(1_000_000);

/** Cash that was taken from a buyer and not voided. */
export interface CashPayment {
  readonly paymentId: number;
  readonly person: YearPerson;
  readonly currency: string;
  readonly sale: { readonly name: string; readonly heldOn: string };
  readonly buyerNo: number;
  /** The day where the association is, an ISO 8601 date. */
  readonly paidOn: string;
  readonly amountCents: Cents;
}

export interface LargeCash {
  readonly person: YearPerson;
  readonly currency: string;
  /** The most that came together within twelve months. */
  readonly mostCents: Cents;
  /** The day on which it became more than the limit. */
  readonly overOn: string;
  /** All payments of such twelve months, the oldest first. */
  readonly payments: readonly CashPayment[];
}

/** By name: those who paid more than the limit within twelve months of which the last payment is of the year. */
export function largeCash(year: string, payments: readonly CashPayment[]): LargeCash[] {
  const byPerson = groupBy(payments, ({ person, currency }) => `${person.personId} ${currency}`);
  return [...byPerson.values()]
    .flatMap((own) => ofPerson(year, own) ?? [])
    .sort((a, b) => comparePeople(a.person, b.person) || compareCodePoints(a.currency, b.currency));
}

function ofPerson(year: string, given: readonly CashPayment[]): LargeCash | null {
  const all = [...given].sort((a, b) => compareCodePoints(a.paidOn, b.paidOn) || a.paymentId - b.paymentId);
  const over = all.map(({ paidOn }) => monthsUpTo(paidOn, all)).filter(({ sumCents }) => sumCents > LIMIT);
  const [first, ...others] = over.filter(({ lastOn }) => yearOf(lastOn) === year);
  if (first === undefined) return null;
  const ofYear = [first, ...others];
  const listed = new Set(ofYear.flatMap((months) => months.payments));
  const most = ofYear.reduce((so, one) => (one.sumCents > so.sumCents ? one : so));
  const [firstListed] = first.payments;
  if (firstListed === undefined) return null;
  const began = over.find(({ lastOn }) => lastOn >= firstListed.paidOn) ?? first;
  return {
    ...{ person: firstListed.person, currency: firstListed.currency },
    ...{ mostCents: most.sumCents, overOn: began.lastOn, payments: all.filter((payment) => listed.has(payment)) },
  };
}

interface Months {
  readonly lastOn: string;
  readonly payments: readonly CashPayment[];
  readonly sumCents: Cents;
}

/** The twelve months that end with a day: the same day of the year before is no longer in them. */
function monthsUpTo(lastOn: string, all: readonly CashPayment[]): Months {
  const year = Number.parseInt(yearOf(lastOn), 10) - 1;
  // As text, so that February 29 has a day before it in every year.
  const after = `${String(year).padStart(4, '0')}${lastOn.slice(4)}`;
  const payments = all.filter(({ paidOn }) => paidOn > after && paidOn <= lastOn);
  return { lastOn, payments, sumCents: sumOf(payments, 'amountCents') };
}

/** The form is one of the United States: who works in another currency is told of none. */
function cautionsOf(currencies: ReadonlySet<string>): string[] {
  if (!currencies.has('USD')) {
    return ['A business that takes large sums in cash may have to report them. Ask the accountant.'];
  }
  return [
    'A business that receives more than $10,000 in cash in one transaction, or in related transactions, may have to report it: in the United States on Form 8300 of the IRS, within 15 days (26 U.S.C. 6050I). Ask the accountant, and do not wait for the end of the year.',
    'Foreign money is cash too, and so may be some cashier’s checks and money orders, which this list leaves out.',
  ];
}

export interface CashFacts {
  readonly facts: YearFacts;
  /** Of all years: twelve months may begin in the year before. */
  readonly payments: readonly CashPayment[];
}

export function largeCashPaper(ground: PaperGround, { facts, payments }: CashFacts): ListPaper {
  const { year, sales } = facts;
  const found = largeCash(year, payments);
  const currencies = new Set([...sales.map((one) => one.facts.sale.currency), ...found.map((one) => one.currency)]);
  const none = `No buyer paid more than ${showMoney(LIMIT)} in cash within twelve months that end in ${year}.`;
  return paperOfYear(ground, facts, {
    title: 'Large cash payments',
    opening: [
      `Buyers who paid more than ${showMoney(LIMIT)} in cash within twelve months, over all sales and buyer numbers, with every such payment on its day by the association’s own clock. Voided payments are left out. Cash that was handed back is not taken off.`,
      ...cautionsOf(currencies),
    ],
    tables:
      found.length > 0
        ? found.map(paymentTable)
        : [tableOf([], [], { title: 'Large cash payments in the year', none })],
    remarks: ['Whether payments belong together is the accountant’s to judge.'],
    caution: NO_ADVICE,
  });
}

function paymentTable({ person, currency, mostCents, overOn, payments }: LargeCash): ListTable {
  const heading = [
    ...[clean(person.name), ...addressLines(person), `${showMoney(mostCents)} ${currency} within twelve months`],
    `more than ${showMoney(LIMIT)} since ${longDate(overOn)}`,
  ];
  return tableOf(
    payments,
    [
      ['goods', 'Day', ({ paidOn }) => longDate(paidOn)],
      ['words', 'Sale', ({ sale, buyerNo }) => `${saleInWords(sale)}, buyer ${buyerNo}`],
      ['number', 'Payment', ({ paymentId }) => String(paymentId)],
      ['money', 'Cash', ({ amountCents }) => showMoney(amountCents)],
    ],
    { title: joined(heading, ', '), sum: 'In all', sumAmount: showMoney(sumOf(payments, 'amountCents')) },
  );
}

export const LARGE_CASH_COLUMNS = [
  ...['year', ...PERSON_COLUMNS, 'currency', 'within_12_months', 'over_since'],
  ...['paid_on', 'sale', 'held_on', 'buyer_no', 'payment', 'amount'],
] as const;

/** A row for each payment. */
export function largeCashRows({ facts: { year }, payments: all }: CashFacts): string[][] {
  return largeCash(year, all).flatMap(({ person, currency, mostCents, overOn, payments }) =>
    payments.map(({ paidOn, sale, buyerNo, paymentId, amountCents }) => [
      ...[year, ...personCells(person), currency, formatMoney(mostCents), overOn],
      ...[paidOn, clean(sale.name), sale.heldOn, String(buyerNo), String(paymentId), formatMoney(amountCents)],
    ]),
  );
}
