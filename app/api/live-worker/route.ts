import { liveWorker } from '#app/ui/live-worker.ts';

/** The shared worker's script: a browser may only load it from the server that its pages come from. */
export function GET(): Response {
  return new Response(`(${liveWorker.toString()})();`, {
    headers: { 'content-type': 'text/javascript; charset=utf-8', 'cache-control': 'no-cache' },
  });
}
