/** Whether the router gave this laptop another address: devices and the entries that wait in them know the old one. */
import 'server-only';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod';
import { writeToDisk } from '#db/book/files.ts';
import { certificateFolder } from '#db/certificate/names.ts';

const known = z.strictObject({
  address: z.string(),
  /** The one before; empty where there was none, or it came back. */
  was: z.string(),
  /** Milliseconds since 1970 at which the change was seen. */
  at: z.number(),
});
type Known = z.output<typeof known>;

const SHOWN_MS = 12 * 60 * 60_000;
const fileOf = (bookFile: string) => join(certificateFolder(bookFile), 'address.json');

function read(bookFile: string): Known | undefined {
  try {
    return known.parse(JSON.parse(readFileSync(fileOf(bookFile), 'utf8')));
  } catch {
    return undefined;
  }
}

/**
 * Compares the addresses of now, best first, with the one that was read out before, also over a restart. Where that one
 * is gone, the best of now is noted in its place. Throws where the disk fails.
 */
export function noteAddresses(bookFile: string, hosts: readonly string[], now: number): void {
  const [best] = hosts.filter((host) => /^[\d.]+$/.test(host));
  if (!best || !existsSync(certificateFolder(bookFile))) return;
  const before = read(bookFile);
  if (before && (before.address === best || hosts.includes(before.address))) return;
  const back = before && hosts.includes(before.was);
  const next: Known = back
    ? { address: before.was, was: '', at: now }
    : { address: best, was: before?.address ?? '', at: now };
  writeToDisk(fileOf(bookFile), `${JSON.stringify(next)}\n`);
}

interface Change {
  readonly office: string;
  readonly station: string;
  readonly at: number;
}

/** What is said of a change for half a day; null where there was none. */
export function addressChange(bookFile: string, now: number): Change | null {
  const change = read(bookFile);
  if (!change?.was || now - change.at > SHOWN_MS) return null;
  const { address, was, at } = change;
  const office = `This laptop had the address ${was} and now has ${address}: entries that wait in browsers wait for ${was}. Give it that address back in the router's list; until then every device opens the new one.`;
  const station = `The address of the hall was ${was} and is ${address} now. Entries that were waiting in this device wait at ${was}: keep its browser, and tell the office.`;
  return { office, station, at };
}
