/** Hears how far the book's log has come: over one stream a browser, or by asking where there is no shared worker. */

/** What every screen is told. */
export interface Heard {
  /** How far the log has come. */
  readonly line: number;
  /** Whether nothing is written for now. */
  readonly stopped: boolean;
}

const ASK_EVERY_MS = 1000;

/** Calls back every time something was heard, also when the line is the same: silence means that the server is away. */
export function watchLive(listener: (heard: Heard) => void): () => void {
  try {
    return listenToWorker(listener);
  } catch {
    // A browser has no shared workers, or refuses them together with its storage.
    return ask(listener);
  }
}

function listenToWorker(listener: (heard: Heard) => void): () => void {
  const { port } = new SharedWorker('/api/live-worker', 'peltry-live');
  port.onmessage = ({ data }: MessageEvent<Heard>) => listener(data);
  const bye = () => port.postMessage('bye');
  // A page that comes back from the browser's memory has said goodbye before.
  const hello = () => port.postMessage('hello');
  addEventListener('pagehide', bye);
  addEventListener('pageshow', hello);
  return () => {
    bye();
    port.close();
    removeEventListener('pagehide', bye);
    removeEventListener('pageshow', hello);
  };
}

function ask(listener: (heard: Heard) => void): () => void {
  const once = async () => {
    try {
      const answer = await fetch('/api/live/line', { signal: AbortSignal.timeout(ASK_EVERY_MS * 4) });
      if (answer.ok) listener((await answer.json()) as Heard);
    } catch {
      // No answer is no news: whoever listens notices the silence.
    }
  };
  void once();
  const asking = setInterval(() => void once(), ASK_EVERY_MS);
  return () => clearInterval(asking);
}
