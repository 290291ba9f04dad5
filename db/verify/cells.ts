/** Comparing and showing stored values exactly as SQLite keeps them: 5 and 5.0 are not the same, nor 5 and '5'. */
import type { Cell } from './report.ts';

/** A value read with whole numbers as bigint, so that a whole number is never taken for a fraction. */
export type Stored = bigint | number | string | Uint8Array | null;

export function sameCell(a: Stored | undefined, b: Stored | undefined): boolean {
  if (a instanceof Uint8Array && b instanceof Uint8Array) return Buffer.compare(a, b) === 0;
  return Object.is(a, b);
}

/** The order in which SQLite sorts values of a key: nothing, numbers, text by its bytes, bytes. */
export function compareCells(a: Stored, b: Stored): number {
  const kinds = kindOf(a) - kindOf(b);
  if (kinds !== 0) return kinds;
  if (typeof a === 'string' || a instanceof Uint8Array) return Buffer.compare(bytesOf(a), bytesOf(b));
  return compareNumbers(a, b);
}

function compareNumbers(a: Stored, b: Stored): number {
  if (!isNumber(a) || !isNumber(b)) return 0;
  return a < b ? -1 : a > b ? 1 : 0;
}

function isNumber(value: Stored): value is bigint | number {
  return typeof value === 'bigint' || typeof value === 'number';
}

function kindOf(value: Stored): number {
  if (value === null) return 0;
  if (typeof value === 'string') return 2;
  return typeof value === 'object' ? 3 : 1;
}

function bytesOf(value: Stored): Buffer {
  return typeof value === 'string' ? Buffer.from(value) : Buffer.from(value as Uint8Array);
}

/** A whole number that a double holds exactly, or null for anything else. */
export function wholeOf(value: Stored | undefined): number | null {
  if (typeof value !== 'bigint') return null;
  const number = Number.parseInt(value.toString(), 10);
  return Number.isSafeInteger(number) ? number : null;
}

export function showCell(value: Stored | undefined): Cell {
  if (value === undefined || value === null) return null;
  if (typeof value === 'bigint') return wholeOf(value) ?? value.toString();
  if (typeof value === 'object') return Buffer.from(value).toString('hex');
  return value;
}
