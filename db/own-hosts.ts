import { hostname, networkInterfaces } from 'node:os';
import { isThisMachine, parseHostName } from '#lib/host-name.ts';

/** Addresses change when the router is started anew; asking the system for them at each request would be waste. */
const GOOD_FOR_MS = 10_000;
let known: { readonly hosts: ReadonlySet<string>; readonly at: number } | undefined;

/** Whether this is one of the machine's own names and addresses. */
export function isOwnHost(host: string): boolean {
  return isThisMachine(host) || ownHosts().has(host);
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
