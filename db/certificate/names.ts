/** Which names and addresses a certificate is for, and those the association's authority may ever vouch for. */

import { scryptSync, X509Certificate } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { BlockList, isIP, isIPv6 } from 'node:net';
import { hostname, networkInterfaces } from 'node:os';
import { join } from 'node:path';
import type { Book } from '#db/book/open.ts';
import { networkSaid } from '#db/worker/queries.ts';
import { isThisMachine, parseHostName } from '#lib/network/hosts.ts';
import { WORDS_COMPARED, wordsOfBytes } from '#lib/network/words.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';

/** In every certificate, whichever laptop leads: it may answer to this name, and devices that know it stay. */
const HALL_NAME = 'peltry.local';

export interface HostEntry {
  readonly type: 'dns' | 'ip';
  readonly value: string;
}

/** The machine's own names and addresses, and those the office allows. */
export function namesOf(book: Book): { readonly own: HostEntry[]; readonly said: HostEntry[] } {
  const own = ['localhost', '127.0.0.1', '[::1]', HALL_NAME, ...ownHosts()].map(entryOf);
  return { own, said: networkSaid(book).hosts.map(entryOf) };
}

function entryOf(host: string): HostEntry {
  if (host.startsWith('[')) return { type: 'ip', value: host.slice(1, -1) };
  return { type: /^[\d.]+$/.test(host) ? 'ip' : 'dns', value: host };
}

/**
 * Local names (RFC 6762, 8375, 2606 and those of common routers) and addresses that no public site can have
 * (RFC 1918, 3927, 4193, 4291): whoever stole the authority's key could pose as nothing of the world outside.
 */
const LOCAL: readonly HostEntry[] = [
  ...['localhost', 'local', 'home.arpa', 'lan', 'internal', 'test'].map((value) => ({ type: 'dns', value }) as const),
  ...['10.0.0.0/8', '172.16.0.0/12', '192.168.0.0/16', '169.254.0.0/16', '127.0.0.0/8', 'fc00::/7', 'fe80::/10'].map(
    (value) => ({ type: 'ip', value }) as const,
  ),
  { type: 'ip', value: '::1/128' },
];

/** Whether any authority of ours may vouch for it, wherever and whenever it was made. */
export const isLocal = (name: HostEntry): boolean => isWithin(name, LOCAL);

/** What an authority made now may vouch for: everything local, and the names of today. */
export function permitted(names: readonly HostEntry[]): HostEntry[] {
  const further = names.filter((name) => !isWithin(name, LOCAL));
  const single = ({ type, value }: HostEntry): HostEntry =>
    type === 'dns' ? { type, value } : { type, value: `${value}/${value.includes(':') ? 128 : 32}` };
  return [...LOCAL, ...further.map(single)];
}

/**
 * The names of a certificate. An address of the machine's own that the authority may not vouch for, such as a new public
 * one, is left out; refused where the office has named a host that lies outside.
 */
export function within({ own, said }: ReturnType<typeof namesOf>, bounds: readonly HostEntry[]): Result<HostEntry[]> {
  const outside = said.filter((name) => !isWithin(name, bounds)).map(({ value }) => value);
  if (outside.length > 0) {
    const toDo = 'take it out at the office, or move the folder of the certificate away and make all of it anew';
    return refuse('not_allowed', `The authority may not vouch for ${outside.join(', ')}: ${toDo}.`);
  }
  const all = new Map([...own, ...said].map((name) => [name.value, name]));
  return accept([...all.values()].filter((name) => isWithin(name, bounds)));
}

function isWithin({ type, value }: HostEntry, bounds: readonly HostEntry[]): boolean {
  const alike = bounds.filter((bound) => bound.type === type).map((bound) => bound.value);
  if (type === 'dns') return alike.some((bound) => value === bound || value.endsWith(`.${bound}`));
  return alike.some((bound) => isInNet(value, bound));
}

function isInNet(address: string, net: string): boolean {
  const [start = '', bits = ''] = net.split('/');
  const family = isIPv6(address) ? 'ipv6' : 'ipv4';
  if (isIPv6(start) !== isIPv6(address)) return false;
  const list = new BlockList();
  list.addSubnet(start, Number.parseInt(bits, 10), family);
  return list.check(address, family);
}

/** Addresses change when the router is started anew; asking the system for them at each request would be waste. */
const GOOD_FOR_MS = 10_000;
let known: { readonly hosts: ReadonlySet<string>; readonly at: number } | undefined;

/** Whether this is one of the machine's own names and addresses. */
export function isOwnHost(host: string): boolean {
  return isThisMachine(host) || host === HALL_NAME || ownHosts().has(host);
}

/** The names and addresses under which the network reaches this machine. */
export function ownHosts(): ReadonlySet<string> {
  if (!known || Date.now() - known.at > GOOD_FOR_MS) known = { hosts: askSystem(), at: Date.now() };
  return known.hosts;
}

function askSystem(): ReadonlySet<string> {
  const addresses = Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    // An address that holds for one cable only (RFC 4291, 2.5.6) cannot be typed into a browser.
    .filter(({ internal, address }) => !internal && !address.startsWith('fe80:'))
    .map(({ family, address }) => (family === 'IPv6' ? `[${address}]` : address));
  const name = hostname();
  // Phones and laptops find a machine without a name server under its name with .local (RFC 6762).
  const names = name.includes('.') ? [name] : [name, `${name}.local`];
  return new Set([...names, ...addresses].flatMap((one) => valid(one)));
}

function valid(typed: string): readonly string[] {
  const parsed = parseHostName(typed);
  return parsed.ok ? [parsed.value] : [];
}

export type Holder = 'authority' | 'server';

/** Where the certificates of a book lie: a folder beside it, which no backup takes along. */
export function certificateFolder(bookFile: string): string {
  return `${bookFile}.certificate`;
}

export function certificateFile(bookFile: string, holder: Holder): string {
  return join(certificateFolder(bookFile), `${holder}.pem`);
}

export function keyFile(bookFile: string, holder: Holder): string {
  return join(certificateFolder(bookFile), `${holder}.key`);
}

/** The SHA-256 of a certificate in pairs of hexadecimal digits, as phones show it; undefined where there is none. */
export function fingerprintOf(bookFile: string, holder: Holder = 'authority'): string | undefined {
  return certificateOf(bookFile, holder)?.fingerprint256;
}

/** A certificate as Node reads it, which needs no library: for the server, which makes none. */
export function certificateOf(bookFile: string, holder: Holder): X509Certificate | undefined {
  const file = certificateFile(bookFile, holder);
  return existsSync(file) ? new X509Certificate(readFileSync(file)) : undefined;
}

/** Whether a certificate is for this name or address, as it is typed. */
export function coversHost(certificate: X509Certificate, host: string): boolean {
  const bare = host.replace(/^\[|\]$/g, '');
  return (isIP(bare) ? certificate.checkIP(bare) : certificate.checkHost(bare)) !== undefined;
}

/**
 * The six words of an authority's certificate. They come of its SHA-256 by a slow function, so that nobody finds another
 * certificate with the same words within years.
 */
export function wordsOf(certificate: X509Certificate): string {
  const known = words.get(certificate.fingerprint256);
  if (known) return known;
  const digest = Buffer.from(certificate.fingerprint256.replaceAll(':', ''), 'hex');
  const made = wordsOfBytes(scryptSync(digest, 'peltry words', WORDS_COMPARED, { N: 2 ** 14, r: 8, p: 1 }));
  words.clear();
  words.set(certificate.fingerprint256, made);
  return made;
}
/** Of the newest asked for: it takes some thirty milliseconds. */
const words = new Map<string, string>();
