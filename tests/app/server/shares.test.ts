import { EventEmitter } from 'node:events';
import type { ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
import { describe, expect, it } from 'vitest';
import { ROOM, Shares } from '#app/server/guard/shares.ts';
import { onceAMinute } from '#app/server/guard/terminal.mjs';
import { notWellFormed } from '#app/server/guard/well-formed.mjs';
import { MACHINE } from '#lib/network/client.ts';

let ports = 0;

class FakeSocket extends EventEmitter {
  readonly localPort = 3000;
  readonly remotePort: number;
  gone = false;
  constructor(readonly remoteAddress: string) {
    super();
    ports += 1;
    this.remotePort = ports;
  }
  destroy() {
    this.gone = true;
  }
}

const hall = () => {
  const shares = new Shares();
  const come = (address: string, many: number) =>
    Array.from({ length: many }, () => {
      const socket = new FakeSocket(address);
      shares.admit(socket as unknown as Socket, 0);
      return socket;
    });
  const left = (sockets: readonly FakeSocket[]) => sockets.filter(({ gone }) => !gone).length;
  const held = (socket: FakeSocket | undefined) => {
    const found = socket && shares.of(socket as unknown as Socket);
    if (!found) throw new Error('This socket was turned away.');
    return found;
  };
  return { shares, come, left, held };
};
const answer = () => new EventEmitter() as unknown as ServerResponse;

describe('sockets', () => {
  it('of one address make room among themselves, the oldest idle one first', () => {
    const { shares, come, left, held } = hall();
    const own = come('10.0.0.1', ROOM.sockets);
    shares.asks(held(own[0]), answer());
    come('10.0.0.1', 1);
    expect([own[0]?.gone, own[1]?.gone, left(own)]).toEqual([false, true, ROOM.sockets - 1]);
  });

  it('of all guests together are bounded: whoever has the most gives some up, and never the machine', () => {
    const { come, left } = hall();
    const [few, machine] = [come('10.0.0.1', 3), come('127.0.0.1', 40)];
    const many = Array.from({ length: 30 }, (_, at) => come(`10.0.1.${at}`, ROOM.sockets)).flat();
    expect([left(few), left(machine), left(many)]).toEqual([3, 40, ROOM.guests - 3]);
    expect(left(come('127.0.0.1', 40))).toBe(40);
  });

  it('come at a bounded pace from one address', () => {
    const { come, shares } = hall();
    come('10.0.0.1', 1000);
    expect(shares.uses(9)).toEqual([
      { name: '10.0.0.1', sockets: ROOM.sockets, streams: 0, refused: 1000 - ROOM.sockets },
    ]);
    expect(come('10.0.0.2', 1).map(({ gone }) => gone)).toEqual([false]);
  });

  it('that do not wait for their answers are closed', () => {
    const { shares, come, held } = hall();
    const [one] = come('10.0.0.1', 1);
    const its = held(one);
    const taken = Array.from({ length: 5 }, () => shares.asks(its, answer()));
    expect([taken, one?.gone]).toEqual([[true, true, true, true, false], true]);
  });
});

describe('what is sent', () => {
  it('is bounded in bytes on their way, and in tries of strangers', () => {
    const { shares, come, held } = hall();
    const one = held(come('10.0.0.1', 1)[0]);
    const answers = Array.from({ length: 9 }, answer);
    expect(answers.map((its) => shares.body(one, 1_000_000, its))).toEqual([...Array(8).fill(null), 'body']);
    answers[0]?.emit('close');
    expect(shares.body(one, 1_000_000, answer())).toBeNull();
    const tries = Array.from({ length: 31 }, () => shares.unknown(one, 5000));
    expect(tries).toEqual([...Array(30).fill(null), 'unknown']);
    expect(shares.unknown(one, 6000)).toBeNull();
    const machine = held(come('127.0.0.1', 1)[0]);
    expect(machine.client.name).toBe(MACHINE);
    expect(Array.from({ length: 99 }, () => shares.unknown(machine, 0)).every((over) => over === null)).toBe(true);
  });
});

describe('what no page of ours sends', () => {
  const status = (url: string, method = 'GET', headers: Record<string, string> = {}) =>
    notWellFormed({ url, method, headers })?.status ?? 200;

  it.each([
    '/help/%ff',
    '/prices/%ff',
    '/prices/data/%25',
    '/intake/lot/%ff',
    '/%00',
    '//x',
    '/a/../b',
    '/%2e%2e/b',
    '/a\\b',
  ])('%s is no address', (path) => expect(status(path)).toBe(400));

  it('is another method than a page takes', () => {
    for (const method of ['PUT', 'PATCH', 'DELETE', 'OPTIONS', 'POST']) expect(status('/board', method)).toBe(405);
    expect([status('/api/sign-in', 'POST'), status('/prices/own/enter', 'POST'), status('/api/live', 'PUT')]).toEqual([
      ...[200, 200, 405],
    ]);
  });

  it('is a header of the framework that its pages do not send', () => {
    const tree = encodeURIComponent('["",{"children":[["no","3","d",null],{}]},null,"refetch",16]');
    for (const [name, said] of [
      ['next-action', 'x'],
      ['rsc', '2'],
      ['next-router-state-tree', '%'],
      ['next-url', '/%ff'],
    ])
      expect(status('/board', 'GET', { [name as string]: said as string }), name).toBe(400);
    const headers = { rsc: '1', 'next-router-state-tree': tree, 'x-invoke-path': '/office', 'x-station': 'till' };
    expect(status('/till/3?_rsc=x', 'GET', headers)).toBe(200);
    expect(Object.keys(headers)).toEqual(['rsc', 'next-router-state-tree', 'x-station']);
  });
});

describe('the terminal', () => {
  it('is told of one kind of fault once a minute, and then how often it came', () => {
    const printed: string[] = [];
    let now = 0;
    const print = onceAMinute(
      (...said) => printed.push(said.join(' ')),
      () => now,
    );
    for (let at = 0; at < 500; at += 1) print(new Error(`Lot ${at} is odd.`));
    for (let at = 0; at < 100; at += 1) print(`Kind ${'x'.repeat(at)}`);
    expect(printed).toHaveLength(20);
    now = 60_000;
    print('Later');
    expect(printed.slice(20)).toEqual([
      'Error: Lot 499 is odd. (the last of 499 more times)',
      'Other faults (and 81 more times)',
      'Later',
    ]);
  });

  it('prints each copy by its own name: no name stands for another', () => {
    const printed: string[] = [];
    const print = onceAMinute((...said) => printed.push(said.join(' ')));
    const copies = ['lantern-20260228T140509123Z.book', 'lantern-20260228T141509123Z.book'];
    for (const copy of [...copies, ...copies]) print(`The book is gone. What was saved is in backups/${copy}.`);
    expect(printed).toEqual(copies.map((copy) => `The book is gone. What was saved is in backups/${copy}.`));
  });
});
