/** A line between browser and server on which requests and answers get lost, come twice or come late. */
import { once } from 'node:events';
import { type ClientRequest, createServer, type IncomingMessage, request, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { HALL_HOST } from './browser.ts';

export type Mishap = 'request lost' | 'answer lost' | 'sent twice' | 'late' | 'none';

export interface BadLine {
  readonly hallUrl: string;
  /** How often each mishap befell an entry. */
  readonly befell: ReadonlyMap<Mishap, number>;
  readonly close: () => void;
}

const LATE_MS = 150;

/** Passes everything on to the server's port; `mishapOf` says what befalls the n-th entry given to the door. */
export async function badLine(serverPort: number, mishapOf: (entry: number) => Mishap): Promise<BadLine> {
  const befell = new Map<Mishap, number>();
  let entries = 0;
  const server = createServer(async (incoming, outgoing) => {
    const body = await bodyOf(incoming);
    const isEntry = incoming.method === 'POST';
    if (isEntry) entries += 1;
    const mishap = isEntry ? mishapOf(entries) : 'none';
    befell.set(mishap, (befell.get(mishap) ?? 0) + 1);
    if (mishap === 'request lost') return void incoming.socket.destroy();
    if (mishap === 'late') await new Promise((resolve) => setTimeout(resolve, LATE_MS));
    if (mishap === 'sent twice') forward(serverPort, incoming, body);
    const passed = forward(serverPort, incoming, body);
    passed.on('error', () => incoming.socket.destroy());
    passed.on('response', (answer) =>
      mishap === 'answer lost' ? incoming.socket.destroy() : passBack(answer, outgoing),
    );
    outgoing.on('close', () => passed.destroy());
  }).listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  return {
    hallUrl: `http://${HALL_HOST}:${port}`,
    befell,
    close: () => {
      server.closeAllConnections();
      server.close();
    },
  };
}

async function bodyOf(incoming: IncomingMessage): Promise<Buffer> {
  const parts: Buffer[] = [];
  for await (const part of incoming) parts.push(part as Buffer);
  return Buffer.concat(parts);
}

function forward(port: number, { method, url, headers }: IncomingMessage, body: Buffer): ClientRequest {
  const passed = request({ host: '127.0.0.1', port, method, path: url, headers });
  passed.on('error', () => {});
  passed.end(body);
  return passed;
}

function passBack(answer: IncomingMessage, outgoing: ServerResponse): void {
  outgoing.writeHead(answer.statusCode ?? 500, answer.headers);
  answer.on('error', () => outgoing.destroy());
  answer.pipe(outgoing);
}
