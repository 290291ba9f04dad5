/** The sales tax of a year or of one sale, to be copied onto a return: what was taxed, what was exempt and why, and the tax. */
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { addCents, type Cents, formatMoney, showMoney, sumOf, ZERO } from '#lib/money/money.ts';
import type { PaperGround } from '#lib/paper/facts.ts';
import { cell, type ListPaper, type ListTable, NO_ADVICE, paperAbout, strongCell, tableOf } from '#lib/paper/list.ts';
import { paidIn } from '#lib/seller/account.ts';
import { sheetSaleOf } from '#lib/settlement/sheet.ts';
import { clean } from '#lib/settlement/spelling.ts';
import {
  countedSales,
  currenciesOf,
  isSettled,
  paperOfYear,
  personIn,
  saleInWords,
  uncounted,
  type YearFacts,
  type YearSale,
} from './year.ts';

interface TaxSums {
  /** Lots and premium of the buyers who pay tax. */
  readonly taxableCents: Cents;
  /** Lots and premium of the exempt ones. */
  readonly exemptCents: Cents;
  readonly taxCents: Cents;
  /** All three. */
  readonly billedCents: Cents;
}

interface BuyerTax extends TaxSums {
  readonly buyerNo: number;
  readonly name: string;
  readonly exempt: boolean;
  /** The number of the exemption certificate; empty for a buyer who pays tax, or where none was written down. */
  readonly exemptNo: string;
  readonly amountCents: Cents;
  readonly premiumCents: Cents;
}

export interface SaleTax extends TaxSums {
  readonly sale: YearSale;
  readonly currency: string;
  /** Everybody who bought, by number. */
  readonly buyers: readonly BuyerTax[];
}

/** Sum 8 of each buyer, told apart by whether it was taxed. Nothing is worked out anew: the sums are the invoices'. */
export function taxOfSale(sale: YearSale): SaleTax {
  const buyers = new Map(sale.facts.buyers.map((buyer) => [buyer.buyerNo, buyer]));
  const rows = invoiceSale(sale.facts).map((invoice): BuyerTax => {
    const { buyerNo, taxExempt: exempt, amountCents, premiumCents, taxCents, totalCents: billedCents } = invoice;
    const { personId = '', exemptNo = '' } = buyers.get(buyerNo) ?? {};
    const before = addCents(amountCents, premiumCents);
    return {
      ...{ buyerNo, name: personIn(sale, personId).name, exempt, exemptNo: exempt ? clean(exemptNo) : '' },
      ...{ amountCents, premiumCents, taxCents, billedCents },
      taxableCents: exempt ? ZERO : before,
      exemptCents: exempt ? before : ZERO,
    };
  });
  return { sale, currency: sale.facts.sale.currency, buyers: rows, ...addedUp(rows) };
}

function addedUp(rows: readonly TaxSums[]): TaxSums {
  return {
    taxableCents: sumOf(rows, 'taxableCents'),
    exemptCents: sumOf(rows, 'exemptCents'),
    taxCents: sumOf(rows, 'taxCents'),
    billedCents: sumOf(rows, 'billedCents'),
  };
}

export function taxOfYear(facts: YearFacts): SaleTax[] {
  return countedSales(facts).map(taxOfSale);
}

const TITLE = 'Sales-tax worksheet';

export function salesTaxOfYear(ground: PaperGround, facts: YearFacts): ListPaper {
  const none = `No sale of ${facts.year} is settled yet: there is no sales tax to work out.`;
  const { opening, ...rest } = partsOf(taxOfYear(facts), none, uncounted(facts));
  const counts = 'A sale counts in the year in which it was held, whenever its buyers paid.';
  return paperOfYear(ground, facts, { title: TITLE, opening: [counts, ...opening], ...rest });
}

export function salesTaxOfSale(ground: PaperGround, sale: YearSale): ListPaper {
  const { name, words } = sheetSaleOf(sale.facts.sale);
  const early = isSettled(sale) ? [] : ['This sale is not settled yet: these figures may still change.'];
  return paperAbout(ground, { title: TITLE, sale: { name, words }, ...partsOf([taxOfSale(sale)], '', early) });
}

/** What buyers were billed and never paid stays billed: whether its tax is taken off is not the program's to say. */
function writtenOff(sales: readonly SaleTax[]): string[] {
  return sales.flatMap(({ sale: { facts }, currency }) => {
    const given = facts.payments.filter(({ buyerNo, method }) => buyerNo !== null && method === 'written_off');
    if (given.length === 0) return [];
    const amount = `${showMoney(paidIn(given))} ${currency}`;
    return [
      `${saleInWords(facts.sale)}: ${amount} that buyers were billed was written off and never came in. It is still in these figures, with its tax: ask the accountant whether that tax can be taken off.`,
    ];
  });
}

function partsOf(sales: readonly SaleTax[], none: string, remarks: readonly string[]) {
  const tables = currenciesOf(sales).flatMap((currency) => {
    const own = sales.filter((one) => one.currency === currency);
    return [salesTable(own, currency), exemptTable(own, currency)];
  });
  return {
    opening: [
      'Taxable and exempt are what the lots brought and the buyer’s premium together. Tax is rounded once on each invoice, so that it may differ by some cents from the rate on the whole.',
      'The figures are those of the lots as they stand now. An invoice that no longer says so is put right at the Till.',
    ],
    tables: tables.length > 0 ? tables : [tableOf([], [], { title: 'By sale', none })],
    remarks: [
      ...remarks,
      ...writtenOff(sales),
      'Keep the exemption certificates themselves: ask the accountant for how long.',
    ],
    caution: NO_ADVICE,
  };
}

function salesTable(sales: readonly SaleTax[], currency: string): ListTable {
  const sum = addedUp(sales);
  const money = (name: keyof TaxSums) => (row: SaleTax | null) =>
    row ? showMoney(row[name]) : strongCell(showMoney(sum[name]));
  return tableOf<SaleTax | null>(
    [...sales, null],
    [
      ['words', 'Sale', (row) => (row ? saleCell(row) : strongCell('In all'))],
      ['money', 'Taxable', money('taxableCents')],
      ['money', 'Exempt', money('exemptCents')],
      ['money', 'Tax', money('taxCents')],
      ['money', 'Billed', money('billedCents')],
    ],
    { title: `By sale, in ${currency}` },
  );
}

function saleCell({ sale: { facts } }: SaleTax) {
  return cell(saleInWords(facts.sale), `Sales tax ${facts.sale.terms.taxPct} %`);
}

function exemptTable(sales: readonly SaleTax[], currency: string): ListTable {
  const rows = sales.flatMap(({ sale, buyers }) =>
    buyers.filter(({ exempt }) => exempt).map((buyer) => ({ sale, buyer })),
  );
  const buyers = rows.map(({ buyer }) => buyer);
  return tableOf(
    rows,
    [
      [
        'words',
        'Exempt buyer',
        ({ sale, buyer }) => cell(clean(buyer.name), `Buyer ${buyer.buyerNo}, ${saleInWords(sale.facts.sale)}`),
      ],
      ['words', 'Certificate', ({ buyer }) => buyer.exemptNo || 'No number was written down: ask the buyer for it'],
      ['money', 'Exempt', ({ buyer }) => showMoney(buyer.exemptCents)],
    ],
    {
      title: `Exempt buyers, in ${currency}`,
      none: 'No exempt buyer has bought.',
      ...(rows.length > 0 ? { sum: 'Exempt in all', sumAmount: showMoney(sumOf(buyers, 'exemptCents')) } : {}),
    },
  );
}

export const SALES_TAX_COLUMNS = [
  ...['sale', 'held_on', 'buyer_no', 'buyer', 'exempt', 'certificate', 'currency', 'lots', 'premium'],
  ...['taxable', 'exempt_amount', 'tax_pct', 'tax', 'billed'],
] as const;

/** A row for each buyer who bought. */
export function salesTaxRows(sales: readonly SaleTax[]): string[][] {
  return sales.flatMap(({ sale: { facts }, currency, buyers }) =>
    buyers.map((buyer) => [
      ...[clean(facts.sale.name), facts.sale.heldOn, String(buyer.buyerNo), clean(buyer.name)],
      ...[buyer.exempt ? 'yes' : 'no', buyer.exemptNo, currency],
      ...[buyer.amountCents, buyer.premiumCents, buyer.taxableCents, buyer.exemptCents].map(formatMoney),
      ...[facts.sale.terms.taxPct, formatMoney(buyer.taxCents), formatMoney(buyer.billedCents)],
    ]),
  );
}
