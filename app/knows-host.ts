import 'server-only';
import { isOwnHost } from '#db/own-hosts.ts';
import { networkSaid } from '#db/queries/network.ts';
import { hostOf } from '#lib/host-name.ts';
import { house } from './house.ts';

/** Whether the `Host` of a request leads to this machine: by its own names and addresses, or those the office allows. */
export function knowsHost(header: string | null): boolean {
  const host = hostOf(header);
  if (host === undefined) return false;
  return isOwnHost(host) || allowed().includes(host);
}

function allowed(): readonly string[] {
  const { book } = house();
  try {
    return book ? networkSaid(book).hosts : [];
  } catch {
    // A damaged book says nothing; the machine's own names lead to the page that says what to do.
    return [];
  }
}
