/** Every paper and file of money that is made at 11 at night carries the day of the hall, and December 31 its own year. */
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { renderSheets } from '#app/papers/render.ts';
import { folderTexts } from '#db/exchange/export-sale.ts';
import { issuedInvoices } from '#db/invoice/queries.ts';
import { payoutFile, payoutPapers } from '#db/settlement/papers.ts';
import { issuedSheets } from '#db/settlement/sheets.ts';
import { invoiceList } from '#lib/buyer/lists.ts';
import { readBack } from '#tests/papers/support/pdf.ts';
import { EVENINGS, eveningHall } from '#tests/support/sales.ts';

// The machine that runs the server may stand anywhere: its own zone is none of those of the books.
const { TZ } = process.env;
beforeAll(() => {
  process.env.TZ = 'Asia/Tokyo';
  expect(new Date(0).getTimezoneOffset()).toBe(-9 * 60);
});
afterAll(() => {
  if (TZ === undefined) delete process.env.TZ;
  else process.env.TZ = TZ;
});

describe.each(EVENINGS)('an evening in $zone', (evening) => {
  const hall = eveningHall(evening);
  const { book, sale, saleId } = hall;
  const drawnOn = evening.day;
  const rowsOf = (text: string | undefined) => parse(text ?? '', { columns: true }) as Record<string, string>[];
  const papersOf = (paper: string) => payoutPapers(book, sale, { paper, drawnOn, check: null }) ?? [];
  const sheets = () => issuedSheets(book, saleId);

  it.each([
    ['the register', () => papersOf('check-register'), '1050 Ada Birch 1 1 December 31, 2026'],
    ['the register, of a void check', () => papersOf('check-register'), 'void December 31, 2026'],
    ['the stubs', () => papersOf('check-stubs'), 'Check written December 31, 2026'],
    ['the closing report', () => papersOf('closing-report'), 'Closed December 31, 2026 by Ada'],
    ['a settlement sheet', () => sheets().map(({ sheet }) => sheet), 'December 31, 2026'],
    ['a correction', () => sheets().flatMap(({ correction }) => correction?.report ?? []), 'December 31, 2026'],
    ['an invoice', () => issuedInvoices(book, saleId).map(({ invoice }) => invoiceList(invoice)), 'December 31, 2026'],
  ])('%s says so on paper', async (_, papers, words) => {
    const found = papers();
    expect(found.length).toBeGreaterThan(0);
    const { text } = readBack(await renderSheets(found, { size: 'letter' }));
    expect(text).toContain(words);
    expect(text).not.toMatch(/\b(2027|30 December|1 January)\b/);
  });

  it('the register as a file, and the remark of a void check', () => {
    const rows = rowsOf(payoutFile(book, sale, { file: 'checks.csv', drawnOn }));
    expect(rows.length).toBeGreaterThan(1);
    expect(new Set(rows.map(({ date }) => date))).toEqual(new Set(['2026-12-31']));
    expect(rows[0]?.remark).toMatch(/^void December 31, 2026/);
  });

  it('the journal, as a table and as plain-text accounting: a payment stays in its tax year', () => {
    const rows = rowsOf(payoutFile(book, sale, { file: 'journal.csv', drawnOn }));
    expect(rows.filter(({ memo }) => memo?.startsWith('Paid')).length).toBeGreaterThan(3);
    expect(new Set(rows.map(({ date }) => date))).toEqual(new Set(['2026-12-31']));
    const texts = folderTexts(book, saleId);
    expect(rowsOf(texts.get('journal.csv'))).toEqual(rows);
    const days = [...(texts.get('journal.ledger') ?? '').matchAll(/^\d{4}-\d\d-\d\d/gm)].map(([day]) => day);
    expect(new Set(days)).toEqual(new Set(['2026-12-31']));
  });

  it('the exchange folder keeps the instants of the payments', () => {
    const rows = rowsOf(folderTexts(book, saleId).get('payments.csv'));
    expect(new Set(rows.map(({ paid_at }) => paid_at))).toEqual(new Set([evening.at]));
  });
});
