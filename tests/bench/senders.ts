/** Sends entries over a fixed number of connections, each one after the other, as so many clerks do. */
import { Agent, request } from 'node:http';

export interface Sent {
  readonly status: number;
  readonly ms: number;
}

interface Post {
  readonly url: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body: string;
}

export class Senders {
  readonly #agent: Agent;

  constructor(readonly connections: number) {
    this.#agent = new Agent({ keepAlive: true, maxSockets: connections });
  }

  /** One entry, answered. */
  post({ url, headers, body }: Post): Promise<Sent> {
    const from = performance.now();
    const all = { 'content-type': 'application/json', 'content-length': Buffer.byteLength(body), ...headers };
    return new Promise((resolve, reject) => {
      const sending = request(url, { method: 'POST', agent: this.#agent, headers: all }, (answer) => {
        answer.resume();
        answer.once('end', () => resolve({ status: answer.statusCode ?? 0, ms: performance.now() - from }));
      });
      sending.once('error', reject);
      sending.end(body);
    });
  }

  /** Every entry of the list as fast as the connections take them. */
  async all(posts: readonly Post[]): Promise<{ readonly ms: number; readonly sent: readonly Sent[] }> {
    const sent: Sent[] = [];
    let next = 0;
    const one = async () => {
      for (let post = posts[next++]; post; post = posts[next++]) sent.push(await this.post(post));
    };
    const from = performance.now();
    await Promise.all(Array.from({ length: this.connections }, one));
    return { ms: performance.now() - from, sent };
  }

  close(): void {
    this.#agent.destroy();
  }
}

/** A hammer entry as the Block sends it. */
export function hammerEntry(url: string, lotNo: string, key: string): Post {
  const input = { saleId: 1, lotNo, kind: 'sold', price: '12.25', buyerNo: 1 };
  return {
    url: `${url}/api/commands/outcome.record`,
    headers: { 'idempotency-key': key, 'x-station': 'block', origin: url },
    body: JSON.stringify(input),
  };
}

export function allGood(sent: readonly Sent[]): void {
  const bad = sent.find(({ status }) => status !== 200);
  if (bad) throw new Error(`An entry was answered with ${bad.status}.`);
}
