/** Whose requests count together: one device, as far as its address tells. */

/** What connects from this machine itself. Nobody on the network can send from these addresses. */
export const MACHINE = 'this machine';

const MACHINE_ITSELF: readonly string[] = ['127.0.0.1', '::1'];

/**
 * The name under which a remote address is counted: an IPv4 address, or the first 64 bits of an IPv6 address, because a
 * device on IPv6 may use any number of addresses of its network (RFC 8981). Empty if there is no address any more.
 */
export function clientOf(remoteAddress: string | undefined): string {
  const [plain = ''] = (remoteAddress ?? '')
    .toLowerCase()
    .replace(/^::ffff:(?=\d+\.)/, '')
    .split('%');
  if (MACHINE_ITSELF.includes(plain)) return MACHINE;
  return plain.includes(':') ? `${first64(plain)}::/64` : plain;
}

export const isNetwork = (client: string): boolean => client.endsWith('/64');

function first64(address: string): string {
  const [left = '', right] = address.split('::');
  const before = left === '' ? [] : left.split(':');
  const after = right ? right.split(':') : [];
  const missing = right === undefined ? 0 : Math.max(8 - before.length - after.length, 0);
  const parts = [...before, ...Array.from({ length: missing }, () => '0'), ...after];
  return parts
    .slice(0, 4)
    .map((part) => part.replace(/^0+(?=.)/, ''))
    .join(':');
}
