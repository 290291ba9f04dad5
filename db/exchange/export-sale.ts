/** Makes the texts of an exchange folder from a sale of the book, and writes them. */
import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import { journalEntries } from '#db/account/queries.ts';
import type { Book } from '#db/book/open.ts';
import { saleText } from '#db/sale/commands.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { type Cents, formatMoney } from '#lib/money/money.ts';
import { priceTable } from '#lib/price/table.ts';
import { type JournalEntry, ledgerText } from '#lib/report/journal.ts';
import type { SaleFacts } from '#lib/sale/facts.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { type TagSources, tagRegister } from '#lib/tag/register.ts';
import { bookRows } from './book-rows.ts';
import { csvText, tableText } from './csv.ts';
import { exchangeTable, SALE_FILE, TABLE_NAMES, TABLES } from './tables.ts';

/** Every file of the folder by its name. */
export function folderTexts(book: Book, saleId: number): Map<string, string> {
  const facts = saleFacts(book, saleId);
  const rows = bookRows(book, saleId, facts);
  const sources = {
    tags: rows.tags.map(({ lot_no: lotNo, tag }) => ({ lotNo, tag })),
    people: rows.people.map(({ person_id: personId, licence_no: licenceNo }) => ({ personId, licenceNo })),
  };
  return new Map([
    [SALE_FILE, saleText(facts.sale)],
    ...TABLE_NAMES.map((name) => [TABLES[name].file, tableText(exchangeTable(name), rows[name])] as const),
    ...Object.entries(outTexts(facts, sources, journalEntries(book, saleId))),
  ]);
}

/** Writes all files beside their places first, so that a full disk leaves the files of before as they were. */
export function writeFolder(folder: string, texts: ReadonlyMap<string, string>): void {
  mkdirSync(folder, { recursive: true });
  const files = [...texts].map(([file, text]) => ({
    ...{ path: join(folder, file), draft: join(folder, `.${file}.partial`), text },
  }));
  try {
    for (const { draft, text } of files) writeFileSync(draft, text);
    for (const { draft, path } of files) renameSync(draft, path);
  } finally {
    for (const { draft } of files) rmSync(draft, { force: true });
  }
}

/** The computed files, which reading a folder passes over: each a view of a model of `lib/`, without a sum of its own. */
export const OUT_FILES = [
  ...['settlements.csv', 'settlement_shares.csv', 'settlement_lines.csv', 'invoices.csv'],
  ...['price_table.csv', 'tag_register.csv', 'journal.csv', 'journal.ledger'],
] as const;

function outTexts(
  facts: SaleFacts,
  sources: TagSources,
  journal: readonly JournalEntry[],
): Readonly<Record<(typeof OUT_FILES)[number], string>> {
  const settlements = settleSale(facts);
  return {
    'settlements.csv': table(
      'seller_no lots_sold lots_passed gross commission lot_fees no_sale_fees seller_number_fee charges net',
      settlements.map((one) => [
        ...figures(one.sellerNo, one.lotsSold, one.lotsPassed),
        ...amounts(one.grossCents, one.commissionCents, one.lotFeesCents, one.noSaleFeesCents),
        ...amounts(one.sellerNumberFeeCents, one.chargesCents, one.netCents),
      ]),
    ),
    'settlement_shares.csv': table(
      'seller_no person_id parts share',
      settlements.flatMap(({ sellerNo, shares }) =>
        shares.map((one) => [...figures(sellerNo, one.personId, one.parts), ...amounts(one.shareCents)]),
      ),
    ),
    'settlement_lines.csv': table(
      'seller_no lot_no outcome donated amount commission fees net',
      settlements.flatMap(({ sellerNo, rows }) =>
        rows.map((row) => [
          ...figures(sellerNo, row.lotNo, row.outcome, row.donated ? 'yes' : 'no'),
          ...amounts(row.amountCents, row.commissionCents, row.feesCents, row.netCents),
        ]),
      ),
    ),
    'invoices.csv': table(
      'buyer_no lots amount premium tax total',
      invoiceSale(facts).map((one) => [
        ...figures(one.buyerNo, one.lots),
        ...amounts(one.amountCents, one.premiumCents, one.taxCents, one.totalCents),
      ]),
    ),
    'price_table.csv': table(
      'season goods section measure lots quantity low p25 median p75 high average total',
      priceTable(facts).map((row) => [
        ...figures(row.season, row.goods, row.section, row.measure, row.lots, row.quantity),
        ...amounts(row.lowCents, row.p25Cents, row.medianCents, row.p75Cents, row.highCents),
        ...amounts(row.averageCents, row.totalCents),
      ]),
    ),
    'tag_register.csv': table(
      'tag goods seller_no licence_no lot_no outcome buyer_no price',
      tagRegister(facts, sources).map((row) => [
        ...figures(row.tag, row.goods, row.sellerNo, row.licenceNo, row.lotNo, row.outcome ?? '', row.buyerNo ?? ''),
        row.priceCents === null ? '' : formatMoney(row.priceCents),
      ]),
    ),
    'journal.csv': table(
      'date entry account debit credit memo',
      journal.flatMap(({ date, number, memo, postings }) =>
        postings.map((one) => [
          ...figures(date, number, one.account),
          ...amounts(one.debitCents, one.creditCents),
          memo,
        ]),
      ),
    ),
    'journal.ledger': ledgerText(journal, facts.sale.currency),
  };
}

const amounts = (...all: readonly Cents[]): string[] => all.map(formatMoney);
const figures = (...all: readonly (string | number)[]): string[] => all.map(String);
const table = (header: string, rows: readonly string[][]): string => csvText(header.split(' '), rows);

/** An exchange folder as one file to save. `day` is an ISO 8601 date: the files of the archive bear it. */
export function zipFolder(texts: ReadonlyMap<string, string>, day: string): Uint8Array<ArrayBuffer> {
  const files = [...texts].map(([name, text]) => [name, strToU8(text)] as const);
  // A zip keeps a local time without its zone: noon is the same day wherever it is opened.
  return zipSync(Object.fromEntries(files), { mtime: `${day}T12:00:00` });
}
