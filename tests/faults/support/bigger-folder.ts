import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { tempFolder } from '#tests/support/temp.ts';

const CASE = fileURLToPath(new URL('../../cases/sixty-lots', import.meta.url));
// More than any lot number or tag serial of the case, so that no two copies meet.
const STEP = 1000;

type Row = Record<string, string>;

/** The worked sale of sixty lots with its lots and results so many times over; gives the folder and how many lots. */
export function biggerFolder(times: number): { folder: string; lots: number } {
  const folder = tempFolder('folder');
  cpSync(CASE, folder, { recursive: true });
  const write = (file: string, rows: readonly Row[]) =>
    writeFileSync(join(folder, file), stringify([...rows], { header: true }));
  const over = (file: string, change: (row: Row, copy: number) => Row) => {
    const rows = parse(readFileSync(join(folder, file)), { columns: true }) as Row[];
    const all = Array.from({ length: times }, (_, copy) => rows.map((row) => change(row, copy))).flat();
    write(file, all);
    return all.length;
  };
  const numbered = (row: Row, copy: number) => ({ ...row, lot_no: renumbered(row.lot_no ?? '', copy * STEP) });
  const lots = over('lots.csv', numbered);
  over('results.csv', numbered);
  over('tags.csv', (row, copy) => ({ ...numbered(row, copy), tag: tagOf(row.tag ?? '', copy) }));
  return { folder, lots };
}

function renumbered(lotNo: string, add: number): string {
  return lotNo.replace(/\d+/, (digits) => String(Number.parseInt(digits, 10) + add));
}

/** The serial number gets the copy's number in front, and stays as long as a serial may be. */
function tagOf(tag: string, copy: number): string {
  return copy === 0 ? tag : tag.replace(/(\d+)$/, (serial) => `${copy}${serial}`);
}
