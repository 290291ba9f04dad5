/** A calendar year over all sales: which years there are, and what their papers and files are made from. */
import { and, asc, eq, isNotNull, or } from 'drizzle-orm';
import type { Station } from '#db/book/command.ts';
import type { SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { spreadsheetText } from '#db/exchange/csv.ts';
import { bookGround } from '#db/lot/papers.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { allSales, timeZoneOf } from '#db/sale/queries.ts';
import { buyer, livePayment, particulars, person, sale } from '#db/schema/index.ts';
import { localDay, yearOf } from '#lib/date/date.ts';
import { pick } from '#lib/field/fields.ts';
import type { PaperGround } from '#lib/paper/facts.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { type CashPayment, LARGE_CASH_COLUMNS, largeCashPaper, largeCashRows } from '#lib/report/large-cash.ts';
import {
  SALES_TAX_COLUMNS,
  salesTaxOfSale,
  salesTaxOfYear,
  salesTaxRows,
  taxOfSale,
  taxOfYear,
} from '#lib/report/sales-tax.ts';
import type { YearFacts, YearPerson, YearSale } from '#lib/report/year.ts';
import { PERSON_YEAR_COLUMNS, yearByPersonPaper, yearByPersonRows } from '#lib/report/year-by-person.ts';
import { compareCodePoints } from '#lib/result/text.ts';

/** The lists of a year, in the order of its page. */
const YEAR_PAPERS = ['year-by-person', 'sales-tax', 'large-cash'] as const;
export type YearPaper = (typeof YEAR_PAPERS)[number];

/** Who may see what sellers were paid. */
export const YEAR_STATIONS: readonly Station[] = ['payout', 'office'];

/** All of the book: a day is only found in its year once it is read by the association’s time zone. */
const findMoney = query(({ db }) =>
  db
    .select(pick(livePayment, ['saleId', 'sellerId', 'paidAt']))
    .from(livePayment)
    .where(or(isNotNull(livePayment.sellerId), isNotNull(livePayment.buyerId))),
);

interface Money {
  readonly saleId: number;
  readonly ofSeller: boolean;
  readonly year: string;
}

/** When money of sellers and buyers changed hands, by the year where the association is. */
function moneyByYear(book: Book): Money[] {
  const timeZone = timeZoneOf(book);
  return findMoney(book)
    .all()
    .map(({ saleId, sellerId, paidAt }) => ({
      ...{ saleId, ofSeller: sellerId !== null },
      year: yearOf(localDay(paidAt, timeZone)),
    }));
}

/** The years in which a sale was held, or money of one changed hands; the newest first. A plan alone makes no year. */
function yearsOf(book: Book): string[] {
  const held = allSales(book)
    .filter(({ stage }) => stage !== 'planned')
    .map(({ heldOn }) => yearOf(heldOn));
  const paid = moneyByYear(book).map(({ year }) => year);
  return newestFirst([...held, ...paid]);
}

function newestFirst(years: readonly string[]): string[] {
  return [...new Set(years)].sort(compareCodePoints).reverse();
}

/** The year that is meant where nobody says which: that of the sale, or else the newest. */
function likelyYear(years: readonly string[], { heldOn }: Pick<SaleRow, 'heldOn'>): string {
  const own = yearOf(heldOn);
  return years.includes(own) ? own : (years[0] ?? own);
}

function yearFacts(book: Book, year: string): YearFacts {
  const money = moneyByYear(book).filter((one) => one.ofSeller && one.year === year);
  const paid = new Set(money.map(({ saleId }) => saleId));
  const sales = allSales(book)
    .filter(({ id, stage, heldOn }) => paid.has(id) || (stage !== 'planned' && yearOf(heldOn) === year))
    .reverse();
  return { year, sales: sales.map((row) => yearSale(book, row)) };
}

const personColumns = {
  personId: person.id,
  ...pick(person, ['name', 'street', 'city', 'region', 'postcode', 'memberNo']),
};

const findPeople = query(({ db }) =>
  db
    .select({ ref: particulars.ref, ...personColumns })
    .from(particulars)
    .innerJoin(person, eq(person.id, particulars.personId))
    .where(equals(particulars.saleId, 'saleId')),
);

function yearSale(book: Book, { id: saleId, stage }: SaleRow): YearSale {
  const people = new Map(
    findPeople(book)
      .all({ saleId })
      .map(({ ref, ...one }): [string, YearPerson] => [ref, one]),
  );
  return { saleId, stage, facts: saleFacts(book, saleId), people };
}

const findCash = query(({ db }) =>
  db
    .select({
      paymentId: livePayment.id,
      ...pick(livePayment, ['amountCents', 'paidAt']),
      ...pick(sale, ['currency', 'heldOn']),
      saleName: sale.name,
      buyerNo: buyer.buyerNo,
      person: personColumns,
    })
    .from(livePayment)
    .innerJoin(buyer, eq(buyer.id, livePayment.buyerId))
    .innerJoin(person, eq(person.id, buyer.personId))
    .innerJoin(sale, eq(sale.id, livePayment.saleId))
    .where(and(eq(livePayment.method, 'cash'), eq(livePayment.direction, 'in')))
    .orderBy(asc(livePayment.id)),
);

function cashPayments(book: Book): CashPayment[] {
  const timeZone = timeZoneOf(book);
  return findCash(book)
    .all()
    .map(({ paidAt, saleName, heldOn, ...rest }) => ({
      ...rest,
      sale: { name: saleName, heldOn },
      paidOn: localDay(paidAt, timeZone),
    }));
}

/** What a paper and a file are made from; the money of buyers is read for the one list that shows it. */
function listOf(book: Book, paper: YearPaper, { ground, facts }: Drawn): ListPaper {
  if (paper === 'year-by-person') return yearByPersonPaper(ground, facts);
  if (paper === 'sales-tax') return salesTaxOfYear(ground, facts);
  return largeCashPaper(ground, { facts, payments: cashPayments(book) });
}

interface Drawn {
  readonly ground: PaperGround;
  readonly facts: YearFacts;
}

interface Asked {
  readonly paper: YearPaper;
  /** A year such as `2026`; or a sale, of which there is the worksheet of its tax. */
  readonly of: string | SaleRow;
}

/** `drawnOn` is an ISO 8601 date. */
export function yearPaper(book: Book, { paper, of }: Asked, drawnOn: string): ListPaper {
  const ground = bookGround(book, drawnOn);
  if (typeof of !== 'string') return salesTaxOfSale(ground, yearSale(book, of));
  return listOf(book, paper, { ground, facts: yearFacts(book, of) });
}

/** The same as the text of a CSV file. */
export function yearFile(book: Book, { paper, of }: Asked): string {
  if (typeof of !== 'string') return spreadsheetText(SALES_TAX_COLUMNS, salesTaxRows([taxOfSale(yearSale(book, of))]));
  const facts = yearFacts(book, of);
  if (paper === 'year-by-person') return spreadsheetText(PERSON_YEAR_COLUMNS, yearByPersonRows(facts));
  if (paper === 'sales-tax') return spreadsheetText(SALES_TAX_COLUMNS, salesTaxRows(taxOfYear(facts)));
  return spreadsheetText(LARGE_CASH_COLUMNS, largeCashRows({ facts, payments: cashPayments(book) }));
}

export interface YearView {
  readonly year: string;
  /** All years to choose from. */
  readonly years: readonly string[];
  readonly papers: readonly { readonly paper: YearPaper; readonly list: ListPaper }[];
}

/** The three lists of a year, as a screen shows them. `asked` is what an address says. */
export function yearView(
  book: Book,
  { asked, sale: of }: { readonly asked: string | undefined; readonly sale: SaleRow },
  drawnOn: string,
): YearView {
  const years = yearsOf(book);
  const year = asked !== undefined && isYear(asked) ? asked : likelyYear(years, of);
  const drawn = { ground: bookGround(book, drawnOn), facts: yearFacts(book, year) };
  return {
    year,
    years: newestFirst([year, ...years]),
    papers: YEAR_PAPERS.map((paper) => ({ paper, list: listOf(book, paper, drawn) })),
  };
}

export function isYear(text: string): boolean {
  return /^[12]\d{3}$/.test(text);
}
