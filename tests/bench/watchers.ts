/** Readers of the live events, as boards are. */
import { Agent, type ClientRequest, get } from 'node:http';

export class Watchers {
  readonly #open: ClientRequest[] = [];
  readonly #agent = new Agent({ keepAlive: true, maxSockets: Number.POSITIVE_INFINITY });
  /** For each line, when each watcher first heard of it or of a later one. */
  readonly heard = new Map<number, number[]>();
  #waitingFor: number | null = null;

  async open(url: string, many: number): Promise<void> {
    await Promise.all(Array.from({ length: many }, () => this.#one(`${url}/api/live`)));
  }

  #one(url: string): Promise<void> {
    return new Promise((resolve, reject) => {
      let last = 0;
      const asking = get(url, { agent: this.#agent }, (answer) => {
        answer.setEncoding('utf8');
        answer.on('error', () => undefined);
        answer.on('data', (text: string) => {
          const lines = [...text.matchAll(/"line":(\d+)/g)].map((found) => Number.parseInt(found[1] ?? '0', 10));
          const newest = Math.max(last, ...lines);
          const wanted = this.#waitingFor;
          if (wanted !== null && last < wanted && newest >= wanted) {
            this.heard.set(wanted, [...(this.heard.get(wanted) ?? []), performance.now()]);
          }
          last = newest;
          resolve();
        });
      });
      asking.once('error', reject);
      this.#open.push(asking);
    });
  }

  /** From now on the watchers note when they hear of this line. */
  expect(line: number): void {
    this.#waitingFor = line;
  }

  close(): void {
    for (const asking of this.#open) {
      asking.on('error', () => undefined);
      asking.destroy();
    }
  }
}
