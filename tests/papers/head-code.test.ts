import { describe, expect, it } from 'vitest';
import type { Paper } from '#app/papers/kinds.ts';
import { renderSheets } from '#app/papers/render.ts';
import { hashAt } from '#db/book/log.ts';
import { issuedInvoices } from '#db/invoice/queries.ts';
import { closingsOf } from '#db/report/closing.ts';
import { issuedSheets, previewSheets } from '#db/settlement/sheets.ts';
import { readHead } from '#db/verify/heads.ts';
import { invoiceList } from '#lib/buyer/lists.ts';
import { readBack } from '#tests/papers/support/pdf.ts';
import { scanParts } from '#tests/papers/support/scan.ts';
import { eveningHall } from '#tests/support/sales.ts';

const { book, saleId } = eveningHall({ zone: 'America/Denver', at: '2026-02-28T20:00:00Z', day: '2026-02-28' });
const [bill] = issuedInvoices(book, saleId);
const [sheet] = issuedSheets(book, saleId);
const report = closingsOf(book, saleId).find((one) => one.report !== null)?.report;

/** The right end of the foot of a US letter page. */
const FOOT = { page: 1, part: { x: 530, y: 740, width: 82, height: 52 } };

const draw = (paper: Paper | null | undefined) => renderSheets([paper ?? expect.fail()], { size: 'letter' });

describe('an issued paper has at its foot the head of the log, for a person and for a scanner', () => {
  it.each([
    ['invoice', bill && invoiceList(bill.invoice)],
    ['settlement sheet', sheet?.sheet],
    ['closing report', report],
  ])('%s', async (_, paper) => {
    const bytes = await draw(paper);
    const { file, text } = readBack(bytes);
    const [scanned] = scanParts(file, 300, [FOOT]);
    const head = readHead(scanned?.qr[0] ?? '', 'the paper') ?? expect.fail('no code');
    expect(hashAt(book, head.line)?.slice(0, 20)).toBe(head.hash);
    expect(text).toContain(`${head.line}:${head.hash}`);
    expect(Buffer.compare(bytes, await draw(paper))).toBe(0);
  });

  it('and a preview has none: nothing was issued', async () => {
    const { file } = readBack(await draw(previewSheets(book, saleId, '2026-02-28')[0]));
    expect(scanParts(file, 300, [FOOT])).toEqual([{ qr: [], code128: [] }]);
  });
});
