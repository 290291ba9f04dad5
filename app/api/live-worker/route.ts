/** The shared worker's script: a browser may only load it from the server that its pages come from. */
export function GET(): Response {
  return new Response(`(${liveWorker.toString()})();`, {
    headers: { 'content-type': 'text/javascript; charset=utf-8', 'cache-control': 'no-cache' },
  });
}

/**
 * What runs in the browser's shared worker: it holds the one event stream of all tabs and passes on what it hears.
 * Its text is served as it stands, so it uses nothing from outside itself.
 */
function liveWorker(): void {
  const RETRY_MS = 1000;
  const ports = new Set<MessagePort>();
  let newest: unknown;
  let stream: EventSource | undefined;

  const listen = () => {
    stream = new EventSource('/api/live');
    stream.onmessage = (event) => {
      newest = JSON.parse(event.data);
      for (const port of ports) port.postMessage(newest);
    };
    // A browser tries again by itself after a cut line, but not after an answer of another kind.
    stream.onerror = () => {
      if (stream?.readyState !== EventSource.CLOSED) return;
      setTimeout(listen, RETRY_MS);
    };
  };

  /** A page that comes later hears at once how far the log has come, as the first one does from the server. */
  const take = (port: MessagePort) => {
    ports.add(port);
    if (newest !== undefined && stream?.readyState === EventSource.OPEN) port.postMessage(newest);
  };

  addEventListener('connect', (event) => {
    const port = (event as MessageEvent).ports[0];
    if (!port) return;
    port.onmessage = ({ data }) => (data === 'bye' ? ports.delete(port) : take(port));
    take(port);
    if (!stream) listen();
  });
}
