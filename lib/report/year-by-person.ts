/**
 * What each seller's goods came to in a calendar year and what they were paid in it, by person over all their seller
 * numbers. Everything but the money paid counts in the year in which the sale was held; money paid counts on its day.
 */
import { localDay, yearOf } from '#lib/date/date.ts';
import { addCents, type Cents, formatMoney, showMoney, subtractCents, sumOf, ZERO } from '#lib/money/money.ts';
import type { PaperGround } from '#lib/paper/facts.ts';
import { cell, type ListPaper, type ListTable, NO_ADVICE, strongCell, tableOf } from '#lib/paper/list.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Payment } from '#lib/sale/facts.ts';
import { isHandedOver, partnerAccounts } from '#lib/seller/account.ts';
import { allocate, type SellerSettlement, settleSale } from '#lib/settlement/settlement.ts';
import { addressLines, clean, joined } from '#lib/settlement/spelling.ts';
import {
  comparePeople,
  currenciesOf,
  isHeldIn,
  isSettled,
  PERSON_COLUMNS,
  paperOfYear,
  personCells,
  personIn,
  saleInWords,
  uncounted,
  type YearFacts,
  type YearPerson,
  type YearSale,
} from './year.ts';

/** The sums of a year in their order, with the words that people read. */
const SUMS = [
  ['grossCents', 'Gross'],
  ['commissionCents', 'Commission'],
  ['feesCents', 'Fees'],
  ['chargesCents', 'Charges'],
  ['netCents', 'Net'],
  ['paidCents', 'Paid'],
] as const;
type SumName = (typeof SUMS)[number][0];
type YearSums = Readonly<Record<SumName, Cents>>;

interface PartnerSums extends Omit<YearSums, 'paidCents'> {
  readonly personId: string;
}

/** What one seller number was for one person: their part in it. */
interface NumberOfPerson extends YearSums {
  readonly person: YearPerson;
  readonly currency: string;
  readonly sale: YearSale;
  readonly sellerNo: number;
  /** `2 of 3 parts`; empty for a number of one person. */
  readonly share: string;
}

export interface PersonYear extends YearSums {
  readonly person: YearPerson;
  readonly currency: string;
  readonly numbers: readonly NumberOfPerson[];
}

/**
 * Each partner's share of every sum of a seller number, by their parts as sum 7 divides the net: the shares of each sum
 * add up to it, and the net is the settlement's own share. Each sum is rounded by itself, so that a partner's sums may
 * differ from their net by some cents.
 */
export function partnerSums(settled: SellerSettlement): PartnerSums[] {
  const { shares, grossCents, commissionCents, chargesCents } = settled;
  if (shares.length === 0) return [];
  const parts = shares.map((share) => share.parts);
  const fees = addCents(settled.lotFeesCents, settled.noSaleFeesCents, settled.sellerNumberFeeCents);
  const [gross, commission, fee, charge] = [grossCents, commissionCents, fees, chargesCents].map((sum) =>
    allocate(sum, parts),
  );
  return shares.map(({ personId, shareCents }, at) => ({
    personId,
    grossCents: gross?.[at] ?? ZERO,
    commissionCents: commission?.[at] ?? ZERO,
    feesCents: fee?.[at] ?? ZERO,
    chargesCents: charge?.[at] ?? ZERO,
    netCents: shareCents,
  }));
}

/** A debt that was given up, and a fee that is only charged, brought nobody anything. */
function movesMoney({ method }: Pick<Payment, 'method'>): boolean {
  return isHandedOver({ method }) || method === 'set_off';
}

interface Paying {
  readonly payments: readonly Payment[];
  readonly timeZone: string;
}

/**
 * What each partner was paid in a year, less what they paid in, in the order of the shares: what they had been paid by
 * its end, less what they had been paid by its beginning. So money that names no partner is spread as on their accounts.
 */
export function paidInYear(shares: SellerSettlement['shares'], { payments, timeZone }: Paying, year: string): Cents[] {
  const dated = payments
    .filter(movesMoney)
    .map((payment) => ({ payment, year: yearOf(localDay(payment.paidAt, timeZone)) }));
  const paidOf = (those: typeof dated) => {
    const own = those.map(({ payment }) => payment);
    return partnerAccounts(shares, own).map(({ paidCents }) => paidCents);
  };
  const before = paidOf(dated.filter((one) => one.year < year));
  const after = paidOf(dated.filter((one) => one.year <= year));
  return after.map((paid, at) => subtractCents(paid, before[at] ?? ZERO));
}

const NOTHING = { grossCents: ZERO, commissionCents: ZERO, feesCents: ZERO, chargesCents: ZERO, netCents: ZERO };

function numbersOf(sale: YearSale, year: string): NumberOfPerson[] {
  const { facts } = sale;
  const counts = isSettled(sale) && isHeldIn(sale, year);
  const paymentsOf = groupBy(facts.payments, ({ sellerNo }) => sellerNo);
  return settleSale(facts).flatMap((settled) => {
    const { sellerNo, shares } = settled;
    const payments = paymentsOf.get(sellerNo) ?? [];
    const paid = paidInYear(shares, { payments, timeZone: facts.timeZone }, year);
    const all = shares.reduce((so, { parts }) => so + parts, 0);
    return partnerSums(settled).map(({ personId, ...sums }, at) => ({
      person: personIn(sale, personId),
      currency: facts.sale.currency,
      sale,
      sellerNo,
      share: shares.length === 1 ? '' : `${shares[at]?.parts ?? 0} of ${all} parts`,
      ...(counts ? sums : NOTHING),
      paidCents: paid[at] ?? ZERO,
    }));
  });
}

/** By name. A person who sold in two currencies has a row for each; one of whom every sum is nothing has none. */
export function yearByPerson({ year, sales }: YearFacts): PersonYear[] {
  const numbers = sales
    .flatMap((sale) => numbersOf(sale, year))
    .filter((number) => SUMS.some(([name]) => number[name] !== ZERO));
  const byPerson = groupBy(numbers, ({ person, currency }) => `${person.personId} ${currency}`);
  return [...byPerson.values()]
    .flatMap((own) => {
      const [first] = own;
      return first ? [{ person: first.person, currency: first.currency, numbers: own, ...addedUp(own) }] : [];
    })
    .sort((a, b) => comparePeople(a.person, b.person));
}

function addedUp(rows: readonly YearSums[]): YearSums {
  const sum = (name: SumName) => sumOf(rows, name);
  return {
    grossCents: sum('grossCents'),
    commissionCents: sum('commissionCents'),
    feesCents: sum('feesCents'),
    chargesCents: sum('chargesCents'),
    netCents: sum('netCents'),
    paidCents: sum('paidCents'),
  };
}

/** Common practice, no source: what has to be reported, and of whom, the program cannot know. */
const NO_TAX_NUMBERS =
  'This book keeps no tax numbers of the people it pays. Whether and how sellers’ proceeds are reported to the tax authorities is the accountant’s to say.';

export function yearByPersonPaper(ground: PaperGround, facts: YearFacts): ListPaper {
  const { year } = facts;
  const rows = yearByPerson(facts);
  const none = `No seller number of ${year} is settled yet, and nobody was paid as a seller in ${year}.`;
  const tables = currenciesOf(rows).map((currency) => personTable(rows, currency));
  return paperOfYear(ground, facts, {
    title: 'The year by person',
    opening: [
      'Gross, commission, fees, charges and net count in the year in which the sale was held. Paid counts on the day on which the money changed hands, by the association’s own clock: what was paid late on December 31 is of that year.',
      'Fees are those of lots, no-sales and seller numbers. Charges are dues, advances and adjustments that were taken off. A net below zero is what the person owes. Paid is what the person was paid, or had set off against what they bought, less what they paid in; a debt that was written off is no money and is in no sum here. Voided payments are left out; a check written anew counts on the day of the new one.',
      'Partners share every sum by their parts, in whole cents, so that a partner’s sums may differ from the net by some cents.',
    ],
    tables: tables.length > 0 ? tables : [tableOf([], [], { title: 'By person', none })],
    remarks: [...uncounted(facts), NO_TAX_NUMBERS],
    caution: NO_ADVICE,
  });
}

function personTable(all: readonly PersonYear[], currency: string): ListTable {
  const rows = all.filter((row) => row.currency === currency);
  const sum = addedUp(rows);
  return tableOf<PersonYear | null>(
    [...rows, null],
    [
      ['words', 'Person', (row) => (row ? cell(clean(row.person.name), ...fineOf(row)) : strongCell('In all'))],
      ...SUMS.map(
        ([name, words]) =>
          [
            'money',
            words,
            (row: PersonYear | null) => (row ? showMoney(row[name]) : strongCell(showMoney(sum[name]))),
          ] as const,
      ),
    ],
    { title: `By person, in ${currency}` },
  );
}

function fineOf({ person, numbers }: PersonYear): string[] {
  return [joined(addressLines(person), ', '), ...numbers.map(numberInWords)];
}

function numberInWords({ sale, sellerNo, share }: NumberOfPerson): string {
  return joined([`Seller ${sellerNo}`, share, saleInWords(sale.facts.sale)], ', ');
}

export const PERSON_YEAR_COLUMNS = [
  ...['year', ...PERSON_COLUMNS, 'seller_numbers', 'currency'],
  ...['gross', 'commission', 'fees', 'charges', 'net', 'paid'],
] as const;

export function yearByPersonRows(facts: YearFacts): string[][] {
  return yearByPerson(facts).map((row) => [
    ...[facts.year, ...personCells(row.person), row.numbers.map(numberInWords).join('; '), row.currency],
    ...SUMS.map(([name]) => formatMoney(row[name])),
  ]);
}
