import { onLine, theBook } from '#app/book.ts';
import { newestLine } from '#db/log.ts';

/** Proxies and browsers drop a silent stream; the board also greys when it has heard nothing for five seconds. */
const HEARTBEAT_MS = 2000;

/** Server-sent events that say only how far the log has come; screens then read what they show anew. */
export async function GET(request: Request): Promise<Response> {
  const book = await theBook();
  let stop = () => {};
  const stream = new ReadableStream<Uint8Array>({
    start(controller) {
      // A reader can be gone before anybody says so: what is said to it then must not bring the server down.
      const say = (line: number) => {
        try {
          controller.enqueue(encoded(`data: {"line":${line}}\n\n`));
        } catch {
          stop();
        }
      };
      const unlisten = onLine(say);
      const beat = setInterval(() => say(newestLine(book)), HEARTBEAT_MS);
      stop = () => {
        unlisten();
        clearInterval(beat);
      };
      request.signal.addEventListener('abort', () => stop());
      say(newestLine(book));
    },
    cancel: () => stop(),
  });
  return new Response(stream, {
    headers: { 'content-type': 'text/event-stream', 'cache-control': 'no-store', 'x-accel-buffering': 'no' },
  });
}

const encoder = new TextEncoder();

function encoded(text: string): Uint8Array {
  return encoder.encode(text);
}
