// Entries go to the book by themselves: the framework's way to it costs more than the entry. Like the framework's own
// routes, what answers them is given the standard's Request and gives its Response.
const ENTRY = /^\/api\/commands\/([\w.-]+)(\?.*)?$/;

/** The command that a request brings, or undefined where it is no entry. */
export function commandOf({ method, url }) {
  return method === 'POST' ? ENTRY.exec(url)?.[1] : undefined;
}

export async function answerEntry({ command, book }, request, response) {
  try {
    const answer = await book.answerEntry(command, requestOf(request));
    const body = Buffer.from(await answer.arrayBuffer());
    for (const cookie of answer.headers.getSetCookie()) response.appendHeader('set-cookie', cookie);
    const { 'set-cookie': _, ...rest } = Object.fromEntries(answer.headers);
    // The head is that behind the entry.
    const headers = { ...book.signs(), ...rest };
    response.writeHead(answer.status, { ...headers, 'content-length': body.length });
    response.end(body);
    // Who sends without an end is given time to read why nothing of it is taken.
    if (!request.complete) setTimeout(() => request.complete || request.socket.destroy(), 2000).unref();
  } catch (fault) {
    // Whoever went away in the middle of an entry sends it again with the same key.
    if (request.destroyed && !request.complete) return;
    console.error(fault);
    response.writeHead(500, { 'content-type': 'text/plain' }).end('Internal Server Error');
  }
}

function requestOf(request) {
  const headers = new Headers();
  for (const [name, value] of Object.entries(request.headers)) headers.set(name, String(value));
  return new Request(`http://localhost${request.url}`, {
    method: 'POST',
    headers,
    body: bodyOf(request),
    duplex: 'half',
  });
}

/** The body as it comes in, read only when somebody asks for it. Whoever has enough of it leaves the rest to run off. */
function bodyOf(request) {
  const begin = (stream) => {
    request.on('data', (part) => {
      stream.enqueue(part);
      request.pause();
    });
    request.once('end', () => stream.close());
    request.once('error', (fault) => stream.error(fault));
  };
  let begun = false;
  return new ReadableStream(
    {
      pull(stream) {
        if (!begun) begin(stream);
        begun = true;
        request.resume();
      },
      cancel: () => void request.removeAllListeners('data').removeAllListeners('end').resume(),
    },
    { highWaterMark: 0 },
  );
}
