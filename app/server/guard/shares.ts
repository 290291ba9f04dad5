/** Fair shares of this server: what one device may hold, what all guests may, and room that only the machine itself has. */
import type { ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
import { clientOf, isNetwork, MACHINE } from '#lib/network/client.ts';
import { Turns } from '#lib/network/turns.ts';

/**
 * A browser opens six sockets a line, so 64 are ten devices behind one router; a browser has one stream for all its
 * tabs. A hall of 150 people with a phone each comes to 900 sockets at the very most. The machine's own come on top of
 * those of the guests: nobody in the hall can take them. Both lines together.
 */
export const ROOM = { sockets: 64, guests: 1000, machine: 500, streams: 24, allStreams: 400 } as const;
/** All devices of a hall's IPv6 network count as one client. */
const TIMES_FOR_A_NETWORK = 4;
/** Bytes of bodies on their way: eight entries of the largest size of one client, and what memory has for all guests. */
const BODIES = { each: 8_000_000, all: 64_000_000 } as const;
/** Names, codes and guesses of people who are not signed in: thirty at once, then one a second. */
const UNKNOWN = { atOnce: 30, perSecond: 1 } as const;
/** New sockets: each costs the encrypted line some milliseconds. Sixty devices behind one router come back at once. */
const NEW_SOCKETS = { atOnce: 300, perSecond: 30 } as const;
/** No browser sends a second request on a socket before the first is answered. */
const MOST_ON_A_SOCKET = 4;
/** Pages drawn at once, and how many of one client may wait: more than a browser asks for on all its sockets. */
const PAGES = { atOnce: 6, eachAtOnce: 4, each: 200, all: 2000 } as const;
/** A page that takes longer than this waits for something else than the processor. */
const TURN_MS = 500;
/** Clients without a socket whose counts are remembered. */
const MOST_CLIENTS = 500;

export interface Held {
  readonly client: Client;
  readonly key: string;
  socket: Socket;
  requests: number;
  streams: number;
}

export interface Client {
  readonly name: string;
  readonly held: Set<Held>;
  streams: number;
  bodies: number;
  readonly unknown: Bucket;
  readonly newSockets: Bucket;
  refused: number;
}

/** How much may come at once and by the second; how much of that is left, as of a time in milliseconds. */
class Bucket {
  readonly #most: number;
  readonly #perSecond: number;
  #left: number;
  #asOf = 0;

  constructor({ atOnce, perSecond }: { readonly atOnce: number; readonly perSecond: number }, times: number) {
    this.#most = atOnce * times;
    this.#left = this.#most;
    this.#perSecond = perSecond * times;
  }

  take(now: number): boolean {
    this.#left = Math.min(this.#left + (Math.max(now - this.#asOf, 0) / 1000) * this.#perSecond, this.#most);
    this.#asOf = now;
    if (this.#left < 1) return false;
    this.#left -= 1;
    return true;
  }
}

/** What one client holds now, and what it was refused since the start. */
export interface Use {
  readonly name: string;
  readonly sockets: number;
  readonly streams: number;
  readonly refused: number;
}

/** Why a request gets no share now: more than its client may have. */
export type Over = 'stream' | 'body' | 'unknown' | 'pages';

export class Shares {
  readonly #clients = new Map<string, Client>();
  readonly #held = new Map<string, Held>();
  readonly #turns = new Turns(PAGES);
  #guests = 0;
  #streams = 0;
  #bodies = 0;

  /**
   * Takes a new socket in, at a time in milliseconds. Where there is no room, the oldest idle one of whoever has the most
   * is closed, or this one.
   */
  admit(socket: Socket, now = Date.now()): void {
    const key = keyOf(socket);
    if (key === undefined) return void socket.destroy();
    const client = this.#client(clientOf(socket.remoteAddress));
    if (client.name !== MACHINE && !client.newSockets.take(now)) {
      client.refused += 1;
      return void socket.destroy();
    }
    const held: Held = { client, key, socket, requests: 0, streams: 0 };
    this.#held.set(key, held);
    client.held.add(held);
    if (client.name !== MACHINE) this.#guests += 1;
    socket.once('close', () => this.#let(held));
    const most = client.name === MACHINE ? ROOM.machine : ROOM.sockets * timesOf(client);
    if (client.held.size > most) this.#close(idleOf(client, held) ?? held);
    else if (this.#guests > ROOM.guests) this.#close(this.#ofGreediest(held));
  }

  /** The encrypted line answers on a socket around the first. */
  encrypted(socket: Socket): void {
    const held = this.of(socket);
    if (held) held.socket = socket;
    else socket.destroy();
  }

  of(socket: Socket): Held | undefined {
    return this.#held.get(keyOf(socket) ?? '');
  }

  /** Notes a request until it is answered; false if its socket was closed because it does not wait for answers. */
  asks(held: Held, response: ServerResponse): boolean {
    held.requests += 1;
    response.once('close', () => {
      held.requests -= 1;
    });
    const fine = held.client.name === MACHINE || held.requests <= MOST_ON_A_SOCKET;
    if (!fine) this.#close(held);
    return fine;
  }

  /** A stream of events. When all of them are taken, the oldest of whoever has the most ends. */
  stream(held: Held, response: ServerResponse): Over | null {
    const { client } = held;
    if (client.name !== MACHINE && client.streams >= ROOM.streams * timesOf(client))
      return this.#over(client, 'stream');
    this.#count(held, 1);
    response.once('close', () => this.#count(held, -1));
    if (this.#streams <= ROOM.allStreams) return null;
    const [most] = this.#guestsBy(({ streams }) => streams);
    const oldest = most && [...most.held].find(({ streams }) => streams > 0);
    if (oldest) this.#close(oldest);
    return null;
  }

  /** A body of so many bytes, or of the largest size where that is not said. */
  body({ client }: Held, bytes: number, response: ServerResponse): Over | null {
    if (client.name === MACHINE) return null;
    if (client.bodies + bytes > BODIES.each * timesOf(client) || this.#bodies + bytes > BODIES.all) {
      return this.#over(client, 'body');
    }
    client.bodies += bytes;
    this.#bodies += bytes;
    response.once('close', () => {
      client.bodies -= bytes;
      this.#bodies -= bytes;
    });
    return null;
  }

  /** Something that is sent by whoever is not signed in; `now` in milliseconds. */
  unknown({ client }: Held, now: number): Over | null {
    return client.name === MACHINE || client.unknown.take(now) ? null : this.#over(client, 'unknown');
  }

  /** Draws a page when its turn has come. */
  page({ client }: Held, response: ServerResponse, draw: () => void, refuse: (over: Over) => void): void {
    this.#turns.add(client.name, {
      begin: (done) => {
        if (response.destroyed) return done();
        setTimeout(done, TURN_MS).unref();
        response.once('close', done);
        draw();
      },
      refuse: () => refuse(this.#over(client, 'pages')),
    });
  }

  refused({ client }: Held): void {
    client.refused += 1;
  }

  /** Who holds what, those with the most first. */
  uses(most: number): readonly Use[] {
    const all = [...this.#clients.values()].map(({ name, held, streams, refused }) => {
      return { name, sockets: held.size, streams, refused };
    });
    return all.sort((a, b) => b.sockets - a.sockets || b.refused - a.refused).slice(0, most);
  }

  #client(name: string): Client {
    const known = this.#clients.get(name);
    if (known) return known;
    if (this.#clients.size >= MOST_CLIENTS) this.#forgetOne();
    const times = isNetwork(name) ? TIMES_FOR_A_NETWORK : 1;
    const buckets = { unknown: new Bucket(UNKNOWN, times), newSockets: new Bucket(NEW_SOCKETS, times) };
    const client: Client = { ...buckets, name, held: new Set<Held>(), streams: 0, bodies: 0, refused: 0 };
    this.#clients.set(name, client);
    return client;
  }

  /** The first of those who hold nothing: it has been here longest. */
  #forgetOne(): void {
    for (const [name, { held, bodies }] of this.#clients)
      if (held.size === 0 && bodies === 0) return void this.#clients.delete(name);
  }

  #count(held: Held, by: 1 | -1): void {
    held.streams += by;
    held.client.streams += by;
    if (held.client.name !== MACHINE) this.#streams += by;
  }

  #guestsBy(count: (client: Client) => number): Client[] {
    const guests = [...this.#clients.values()].filter(({ name }) => name !== MACHINE);
    return guests.sort((a, b) => count(b) / timesOf(b) - count(a) / timesOf(a));
  }

  #ofGreediest(newest: Held): Held {
    const [most = newest.client] = this.#guestsBy(({ held }) => held.size);
    return idleOf(most, newest) ?? (most === newest.client ? newest : ([...most.held][0] ?? newest));
  }

  #over(client: Client, what: Over): Over {
    client.refused += 1;
    return what;
  }

  #close(held: Held): void {
    held.client.refused += 1;
    // At once: a closed socket says so a moment later, and would be closed for others, too.
    this.#let(held);
    held.socket.destroy();
  }

  #let(held: Held): void {
    if (!held.client.held.delete(held)) return;
    if (this.#held.get(held.key) === held) this.#held.delete(held.key);
    if (held.client.name !== MACHINE) this.#guests -= 1;
  }
}

const timesOf = ({ name }: Client): number => (isNetwork(name) ? TIMES_FOR_A_NETWORK : 1);

/** The oldest socket of a client on which nothing is asked just now. */
function idleOf(client: Client, except: Held): Held | undefined {
  return [...client.held].find((held) => held !== except && held.requests === 0);
}

/** Both ends of a socket, which it shares with the encrypted one around it. */
function keyOf({ remoteAddress, remotePort, localPort }: Socket): string | undefined {
  return remoteAddress === undefined ? undefined : `${remoteAddress} ${remotePort} ${localPort}`;
}

const place = globalThis as typeof globalThis & { peltryShares?: Shares };

/** The shares of this process; on `globalThis` for the same reason as the book. */
export function sharesNow(): Shares {
  place.peltryShares ??= new Shares();
  return place.peltryShares;
}
