import { theBook } from '#app/request/book.ts';
import { streamHolds } from '#app/server/session.ts';
import { bookNow, heardNow, onLine } from '#app/server/state.ts';

const encoder = new TextEncoder();

/** Proxies and browsers drop a silent stream; the board also greys when it has heard nothing for five seconds. */
const HEARTBEAT_MS = 2000;

/**
 * Server-sent events that say only how far the log has come and whether it is written to; screens then read what they
 * show anew. The book is asked for each time: after a bad day another one may be open than when the stream began. The
 * stream of somebody who was signed in ends with that.
 */
export async function GET(request: Request): Promise<Response> {
  await theBook();
  const mayGoOn = streamHolds(bookNow, request.headers);
  let stop = () => {};
  const stream = new ReadableStream<Uint8Array>({
    start(controller) {
      // A reader can be gone before anybody says so: what is said to it then must not bring the server down.
      const say = (heard = heardNow()) => {
        try {
          if (!mayGoOn()) {
            stop();
            return controller.close();
          }
          controller.enqueue(encoder.encode(`data: ${JSON.stringify(heard)}\n\n`));
        } catch {
          stop();
        }
      };
      const unlisten = onLine(say);
      const beat = setInterval(() => say(), HEARTBEAT_MS);
      stop = () => {
        unlisten();
        clearInterval(beat);
      };
      request.signal.addEventListener('abort', () => stop());
      say();
    },
    cancel: () => stop(),
  });
  return new Response(stream, {
    headers: { 'content-type': 'text/event-stream', 'cache-control': 'no-store', 'x-accel-buffering': 'no' },
  });
}
