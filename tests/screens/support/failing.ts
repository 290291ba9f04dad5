import { once } from 'node:events';
import { type ClientRequest, createServer, type IncomingMessage, request, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Page } from 'playwright-core';
import { HALL_HOST } from '#tests/screens/support/browser.ts';

/** A line between browser and server on which requests and answers get lost, come twice or come late. */

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

/** A browser whose storage does not keep what it is given, in each of the ways in which that is met. */

export const REFUSALS = ['it cannot be opened', 'the disk is full', 'what was stored is taken back'] as const;
export type Refusal = (typeof REFUSALS)[number];

/** To be called before the page is opened. */
export async function withoutStorage(page: Page, refusal: Refusal): Promise<void> {
  await page.addInitScript((how) => {
    const full = () => new DOMException('The disk is full.', 'QuotaExceededError');
    if (how === 'it cannot be opened') {
      IDBFactory.prototype.open = () => {
        throw new DOMException('Storage is refused.', 'SecurityError');
      };
      // Whoever refuses the one refuses the others.
      for (const storage of ['localStorage', 'sessionStorage'] as const) {
        Object.defineProperty(window, storage, {
          get: () => {
            throw new DOMException('Storage is refused.', 'SecurityError');
          },
        });
      }
    } else if (how === 'the disk is full') {
      IDBObjectStore.prototype.add = () => {
        throw full();
      };
      IDBObjectStore.prototype.put = IDBObjectStore.prototype.add;
    } else {
      const add = IDBObjectStore.prototype.add;
      IDBObjectStore.prototype.add = function (...given) {
        const request = add.apply(this, given);
        request.addEventListener('success', () => this.transaction.abort());
        return request;
      };
    }
  }, refusal);
}

/** What boards on other machines ask of the server, without a browser here that draws them. */
export class WireBoards {
  readonly #cut = new AbortController();
  readonly #open: Promise<void>[] = [];

  constructor(
    readonly url: string,
    many: number,
  ) {
    for (let at = 0; at < many; at += 1) this.#open.push(this.#board());
  }

  /** Hears the live events and reads the Board's view at each new line, one read at a time, as app/ui/use-view.ts does. */
  async #board(): Promise<void> {
    const { signal } = this.#cut;
    let shown = 0;
    const events = await fetch(`${this.url}/api/live`, { signal });
    for await (const chunk of events.body ?? []) {
      const line = Number.parseInt(/"line":(\d+)/.exec(new TextDecoder().decode(chunk))?.[1] ?? '0', 10);
      if (line <= shown) continue;
      const view = await fetch(`${this.url}/api/views/board?sale=1`, { signal });
      shown = ((await view.json()) as { line: number }).line;
    }
  }

  /** Hangs up. A board that was cut off by anything else is a fault. */
  async close(): Promise<void> {
    this.#cut.abort();
    for (const ended of await Promise.allSettled(this.#open)) {
      if (ended.status === 'rejected' && (ended.reason as Error).name !== 'AbortError') throw ended.reason;
    }
  }
}
