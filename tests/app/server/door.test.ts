import { once } from 'node:events';
import { createServer, type IncomingMessage, request, type Server, type ServerResponse } from 'node:http';
import { type AddressInfo, connect } from 'node:net';
import { text } from 'node:stream/consumers';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { gate } from '#app/server/gate.mjs';
import { Shares } from '#app/server/guard/shares.ts';
import { LARGEST_BODY } from '#app/server/limits.mjs';

let seen: { readonly command: string; readonly request: Request; readonly reading?: Promise<string | null> }[] = [];
let server: Server;
let port = 0;

const shares = new Shares();

/** What the gate asks of the application, in its place. */
const book = {
  knowsHost: () => true,
  hear: () => undefined,
  looked: () => undefined,
  signs: () => ({ 'x-peltry-book': 'of this test' }),
  shares: () => shares,
  async answerEntry(command: string, request: Request): Promise<Response> {
    if (command === 'nobody.asks') {
      seen.push({ command, request });
      return Response.json({ ok: false }, { status: 401 });
    }
    const reading = bodyOf(request);
    seen.push({ command, request, reading });
    const body = await reading;
    if (command === 'disk.fails') throw new Error('A disk that fails in this test.');
    return Response.json({ body }, { status: body === null ? 413 : 200 });
  },
};

/** Reads no further than an entry may be; null of a longer one. */
async function bodyOf({ body }: Request): Promise<string | null> {
  const reader = body?.getReader();
  const parts: Uint8Array[] = [];
  for (let part = await reader?.read(); part && !part.done; part = await reader?.read()) {
    parts.push(part.value);
    if (Buffer.concat(parts).length <= LARGEST_BODY) continue;
    await reader?.cancel();
    return null;
  }
  return Buffer.concat(parts).toString();
}

const framework = (_: IncomingMessage, response: ServerResponse) => response.writeHead(299).end('the framework');

beforeAll(async () => {
  server = createServer(gate({ secure: false, handle: framework, book }));
  server.on('connection', (socket) => shares.admit(socket));
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  port = (server.address() as AddressInfo).port;
});
afterAll(() => {
  server.closeAllConnections();
  server.close();
});
beforeEach(() => {
  seen = [];
});

async function send(path: string, body: string | readonly string[], { method = 'POST', headers = {} } = {}) {
  const sent = request({ port, path, method, headers });
  const parts = typeof body === 'string' ? [body] : body;
  for (const part of parts) sent.write(part);
  sent.end();
  const [answer] = (await once(sent, 'response')) as [IncomingMessage];
  return { status: answer.statusCode, text: await text(answer), headers: answer.headers };
}

describe('an entry at the gate', () => {
  it('goes to the door with its whole body, and carries the headers of every answer', async () => {
    const { status, text, headers } = await send('/api/commands/lot.add', ['{"a":', '"é"}']);
    expect({ status, text }).toEqual({ status: 200, text: '{"body":"{\\"a\\":\\"é\\"}"}' });
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['content-type']).toBe('application/json');
  });

  it('is told by the gate how it came, whatever the sender says', async () => {
    await send('/api/commands/lot.add', '{}', { headers: { 'x-peltry-line': 'secure machine' } });
    expect(seen[0]?.request.headers.get('x-peltry-line')).toBe('open machine');
    expect(seen[0]?.request.headers.get('x-never-sent')).toBeNull();
  });

  it.each([
    ['another method', '/api/commands/lot.add', 'GET'],
    ['another address', '/api/sign-in', 'POST'],
    ['more behind the name', '/api/commands/lot.add/more', 'POST'],
  ])('goes to the framework with %s', async (_, path, method) => {
    expect((await send(path, method === 'POST' ? '{}' : '', { method })).text).toBe('the framework');
    expect(seen).toEqual([]);
  });

  it.each(['lot.add?', 'lot.add?x=1', '__proto__'])(
    'is taken whatever its name is and what is asked behind it: %s',
    async (name) => {
      expect((await send(`/api/commands/${name}`, '{}')).status).toBe(200);
      expect(seen.map(({ command }) => command)).toEqual([name.replace(/\?.*/, '')]);
    },
  );

  it('that is refused unread, and its connection, are ready for the next', async () => {
    expect((await send('/api/commands/nobody.asks', 'x'.repeat(LARGEST_BODY))).status).toBe(401);
    expect(seen[0]?.request.bodyUsed).toBe(false);
    expect((await send('/api/commands/lot.add', '{}')).text).toBe('{"body":"{}"}');
  });

  it('that does not say how long it is, is read no further than an entry may be', async () => {
    const many = Array.from({ length: 12 }, () => 'x'.repeat(LARGEST_BODY / 10));
    const { status, text } = await send('/api/commands/lot.add', many);
    expect(status).toBe(413);
    expect(JSON.parse(text)).toEqual({ body: null });
    expect((await send('/api/commands/lot.add', many.slice(0, 10))).status).toBe(200);
  });

  it('whose sender goes away in the middle is nothing', async () => {
    const socket = connect(port, '127.0.0.1');
    socket.write('POST /api/commands/lot.add HTTP/1.1\r\nhost: x\r\ncontent-length: 100\r\n\r\n{"a":');
    await expect.poll(() => seen.length).toBe(1);
    const told = vi.spyOn(console, 'error').mockReturnValue();
    socket.destroy();
    await expect(seen[0]?.reading).rejects.toThrow('aborted');
    expect((await send('/api/commands/lot.add', '{}')).status).toBe(200);
    expect(told).not.toHaveBeenCalled();
    told.mockRestore();
  });

  it('that meets a fault is answered, so that it is sent again', async () => {
    const told = vi.spyOn(console, 'error').mockReturnValue();
    expect((await send('/api/commands/disk.fails', '{}')).status).toBe(500);
    expect(told.mock.calls.flat()).toEqual([new Error('A disk that fails in this test.')]);
    told.mockRestore();
  });
});
