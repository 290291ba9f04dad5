/** Sockets of one device that wants all of a line, and requests from another address of this machine than 127.0.0.1. */
import { once } from 'node:events';
import { type IncomingMessage, request } from 'node:http';
import { request as secureRequest } from 'node:https';
import { connect, type Socket } from 'node:net';
import { connect as connectSecurely } from 'node:tls';

export interface Line {
  readonly port: number;
  /** The certificate of the authority, on the encrypted line. */
  readonly ca?: string;
}

export interface Crowd {
  readonly sockets: readonly Socket[];
  /** How many the server has left open. */
  readonly open: () => number;
  readonly leave: () => void;
}

/** Opens so many sockets from an address, each with this text, and does nothing more about them. */
export async function crowd({ port, ca }: Line, from: string, many: number, text: string): Promise<Crowd> {
  const to = { port, host: '127.0.0.1', localAddress: from };
  const begin = () => {
    const socket = ca ? connectSecurely({ ...to, ca, servername: '' }) : connect(to);
    socket.on('error', () => undefined).resume();
    socket.once(ca ? 'secureConnect' : 'connect', () => socket.write(text));
    return socket;
  };
  const sockets: Socket[] = [];
  for (let at = 0; at < many; at += 50) {
    const some = Array.from({ length: Math.min(50, many - at) }, begin);
    sockets.push(...some);
    // Each is either there or was turned away, before the next ones come.
    const settled = some.map((socket) =>
      Promise.race([once(socket, ca ? 'secureConnect' : 'connect'), once(socket, 'close')]).catch(() => undefined),
    );
    await Promise.all(settled);
  }
  const open = () => sockets.filter(({ destroyed, readableEnded }) => !destroyed && !readableEnded).length;
  const leave = () => {
    for (const socket of sockets) socket.destroy();
  };
  return { sockets, open, leave };
}

export interface Timed {
  readonly status: number;
  readonly text: string;
  readonly ms: number;
}

export interface TimedOptions {
  readonly from: string;
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string;
}

/** A request over a socket of its own from this address. Of a stream the first event is read. */
export async function ask({ port, ca }: Line, path: string, options: TimedOptions): Promise<Timed> {
  const { from, method = 'GET', headers = {}, body = '' } = options;
  const began = performance.now();
  const to = { host: '127.0.0.1', port, path, method, headers, localAddress: from, agent: false };
  const sent = ca ? secureRequest({ ...to, ca }) : request(to);
  sent.end(body);
  const [answer] = (await once(sent, 'response')) as [IncomingMessage];
  let text = '';
  for await (const part of answer) {
    text += part;
    if (answer.headers['content-type'] === 'text/event-stream') break;
  }
  sent.destroy();
  return { status: answer.statusCode ?? 0, text, ms: performance.now() - began };
}
