import { describe, expect, it } from 'vitest';
import { clientOf, MACHINE } from '#lib/network/client.ts';
import { Turns } from '#lib/network/turns.ts';

describe('whose requests count together', () => {
  // RFC 8981: a device takes ever new addresses of its network, whose first 64 bits stay.
  it.each([
    ['192.168.1.23', '192.168.1.23'],
    ['::ffff:192.168.1.23', '192.168.1.23'],
    ['127.0.0.1', MACHINE],
    ['::1', MACHINE],
    ['::ffff:127.0.0.1', MACHINE],
    ['127.0.0.2', '127.0.0.2'],
    ['fe80::1c2b:3d4e:5f60:7182%eth0', 'fe80:0:0:0::/64'],
    ['2001:db8:1:2:3:4:5:6', '2001:db8:1:2::/64'],
    ['2001:DB8:1:2:ffff::1', '2001:db8:1:2::/64'],
    ['2001:db8::7', '2001:db8:0:0::/64'],
    [undefined, ''],
  ])('%s is %s', (address, client) => expect(clientOf(address)).toBe(client));
});

describe('turns', () => {
  const begun: string[] = [];
  const refused: string[] = [];
  const dones = new Map<string, () => void>();
  const turns = new Turns({ atOnce: 2, eachAtOnce: 1, each: 3, all: 5 });
  const add = (client: string, name: string) =>
    turns.add(client, {
      begin: (done) => {
        begun.push(name);
        dones.set(name, done);
      },
      refuse: () => refused.push(name),
    });
  const end = (name: string) => dones.get(name)?.();

  it('run one of each client, go round among those who wait, and let the machine itself come first', () => {
    for (const name of ['a1', 'a2', 'a3', 'a4', 'a5']) add('a', name);
    expect([begun, refused]).toEqual([['a1'], ['a5']]);
    add('b', 'b1');
    add('b', 'b2');
    expect(begun).toEqual(['a1', 'b1']);
    // Full: whoever has the most waiting loses the newest.
    add('c', 'c1');
    add('d', 'd1');
    expect(refused).toEqual(['a5', 'a4']);
    add(MACHINE, 'm1');
    expect(refused).toEqual(['a5', 'a4', 'a3']);
    for (const name of ['b1', 'b1', 'm1', 'a1', 'b2', 'c1', 'd1', 'a2']) end(name);
    expect(begun).toEqual(['a1', 'b1', 'm1', 'b2', 'a2', 'c1', 'd1']);
  });
});
