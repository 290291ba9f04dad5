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
