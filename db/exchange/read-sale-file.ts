/** Reads `sale.json` as JSON; what it says is judged later. */
import { refuse } from '#lib/result.ts';
import { decode, NOT_UTF8, REPLACEMENT } from './decode.ts';
import { jsonLines } from './json-lines.ts';
import type { Report } from './problem.ts';
import type { RawFolder } from './raw.ts';
import { SALE_FILE } from './tables.ts';

type SaleFile = Pick<RawFolder, 'sale' | 'saleLines'>;

const UNREAD: SaleFile = { sale: undefined, saleLines: new Map() };

/** `bytes` is null where the folder has no such file. */
export function readSaleFile(bytes: Uint8Array | null, report: Report): SaleFile {
  const tell = (line: number, column: string, refusal: Parameters<Report>[1]) =>
    report({ file: SALE_FILE, line, column }, refusal);
  if (bytes === null) {
    tell(1, '-', refuse('missing', 'Add this file: an exchange folder must have it.'));
    return UNREAD;
  }
  const decoded = decode(bytes, (refusal) => tell(1, '-', refusal));
  if (decoded === null) return UNREAD;
  const { text, damaged } = decoded;
  if (damaged) tell(lineOf(text, text.indexOf(REPLACEMENT)), '-', NOT_UTF8);
  const { lines, doubled, brokenAt } = jsonLines(text);
  if (brokenAt !== null) {
    tell(brokenAt, '-', refuse('malformed', 'Correct this line: the file is not JSON from here on.'));
    return UNREAD;
  }
  for (const { path, line } of doubled) tell(line, path, refuse('taken', `Delete one: “${path}” is there twice.`));
  return { sale: JSON.parse(text) as unknown, saleLines: lines };
}

function lineOf(text: string, at: number): number {
  return text.slice(0, at).split('\n').length;
}
