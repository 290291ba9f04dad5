/** The worked-out files of an exchange folder: each a view of a finished model of `lib/`, without a sum of its own. */
import type { SaleFacts } from '#lib/facts.ts';
import { invoiceSale } from '#lib/invoice.ts';
import { type JournalEntry, journalOf, ledgerText } from '#lib/journal.ts';
import { type Cents, formatMoney } from '#lib/money.ts';
import { priceTable } from '#lib/price-table.ts';
import { type SellerSettlement, settleSale } from '#lib/settlement.ts';
import { type TagSources, tagRegister } from '#lib/tag-register.ts';
import { csvText } from './csv-text.ts';

/** Their names: on reading a folder they are passed over. */
export const OUT_FILES = [
  ...['settlements.csv', 'settlement_shares.csv', 'settlement_lines.csv', 'invoices.csv'],
  ...['price_table.csv', 'tag_register.csv', 'journal.csv', 'journal.ledger'],
] as const;

export function outTexts(facts: SaleFacts, sources: TagSources): Readonly<Record<(typeof OUT_FILES)[number], string>> {
  const settlements = settleSale(facts);
  const journal = journalOf(facts);
  return {
    'settlements.csv': settlementsText(settlements),
    'settlement_shares.csv': sharesText(settlements),
    'settlement_lines.csv': linesText(settlements),
    'invoices.csv': invoicesText(facts),
    'price_table.csv': pricesText(facts),
    'tag_register.csv': tagsText(facts, sources),
    'journal.csv': journalText(journal),
    'journal.ledger': ledgerText(journal, facts.sale.currency),
  };
}

const amounts = (...all: readonly Cents[]): string[] => all.map(formatMoney);
const figures = (...all: readonly (string | number)[]): string[] => all.map(String);
const table = (header: string, rows: readonly string[][]): string => csvText(header.split(' '), rows);

function settlementsText(settlements: readonly SellerSettlement[]): string {
  return table(
    'seller_no lots_sold lots_passed gross commission lot_fees no_sale_fees seller_number_fee charges net',
    settlements.map((one) => [
      ...figures(one.sellerNo, one.lotsSold, one.lotsPassed),
      ...amounts(one.grossCents, one.commissionCents, one.lotFeesCents, one.noSaleFeesCents),
      ...amounts(one.sellerNumberFeeCents, one.chargesCents, one.netCents),
    ]),
  );
}

function sharesText(settlements: readonly SellerSettlement[]): string {
  return table(
    'seller_no person_id parts share',
    settlements.flatMap(({ sellerNo, shares }) =>
      shares.map(({ personId, parts, shareCents }) => [...figures(sellerNo, personId, parts), ...amounts(shareCents)]),
    ),
  );
}

function linesText(settlements: readonly SellerSettlement[]): string {
  return table(
    'seller_no lot_no outcome donated amount commission fees net',
    settlements.flatMap(({ sellerNo, lines }) =>
      lines.map((line) => [
        ...figures(sellerNo, line.lotNo, line.outcome, line.donated ? 'yes' : 'no'),
        ...amounts(line.amountCents, line.commissionCents, line.feesCents, line.netCents),
      ]),
    ),
  );
}

function invoicesText(facts: SaleFacts): string {
  return table(
    'buyer_no lots amount premium tax total',
    invoiceSale(facts).map((one) => [
      ...figures(one.buyerNo, one.lots),
      ...amounts(one.amountCents, one.premiumCents, one.taxCents, one.totalCents),
    ]),
  );
}

function pricesText(facts: SaleFacts): string {
  return table(
    'season goods section measure lots quantity low p25 median p75 high average total',
    priceTable(facts).map((row) => [
      ...figures(row.season, row.goods, row.section, row.measure, row.lots, row.quantity),
      ...amounts(row.lowCents, row.p25Cents, row.medianCents, row.p75Cents, row.highCents),
      ...amounts(row.averageCents, row.totalCents),
    ]),
  );
}

function tagsText(facts: SaleFacts, sources: TagSources): string {
  return table(
    'tag goods seller_no licence_no lot_no outcome buyer_no price',
    tagRegister(facts, sources).map((row) => [
      ...figures(row.tag, row.goods, row.sellerNo, row.licenceNo, row.lotNo, row.outcome ?? '', row.buyerNo ?? ''),
      row.priceCents === null ? '' : formatMoney(row.priceCents),
    ]),
  );
}

function journalText(journal: readonly JournalEntry[]): string {
  return table(
    'date entry account debit credit memo',
    journal.flatMap(({ date, number, memo, postings }) =>
      postings.map(({ account, debitCents, creditCents }) => [
        ...figures(date, number, account),
        ...amounts(debitCents, creditCents),
        memo,
      ]),
    ),
  );
}
