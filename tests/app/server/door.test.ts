import { once } from 'node:events';
import { createServer, type IncomingMessage, request, type Server, type ServerResponse } from 'node:http';
import { type AddressInfo, connect } from 'node:net';
import { text } from 'node:stream/consumers';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { gate } from '#app/server/gate.mjs';
import { LARGEST_BODY } from '#app/server/limits.mjs';

interface Letter {
  readonly headers: { get(name: string): string | null };
  readonly text: () => Promise<{ readonly ok: boolean; readonly value?: string; readonly code?: string }>;
}

/** What the gate asks of the application, in its place. */
const place = globalThis as { peltryHouse?: unknown };
const before = place.peltryHouse;
let seen: Letter[] = [];
let server: Server;
let port = 0;

async function door(command: string, entry: Letter) {
  seen.push(entry);
  const read = await entry.text();
  if (command === 'disk.fails') throw new Error('A disk that fails in this test.');
  return { status: read.ok ? 200 : 413, headers: { 'content-type': 'application/json' }, text: JSON.stringify(read) };
}

const framework = (_: IncomingMessage, response: ServerResponse) => response.writeHead(299).end('the framework');

beforeAll(async () => {
  server = createServer(gate({ secure: false, handle: framework }));
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  port = (server.address() as AddressInfo).port;
});
afterAll(() => {
  place.peltryHouse = before;
  server.closeAllConnections();
  server.close();
});
beforeEach(() => {
  seen = [];
  place.peltryHouse = { knowsHost: () => true, door };
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
    expect({ status, text }).toEqual({ status: 200, text: '{"ok":true,"value":"{\\"a\\":\\"é\\"}"}' });
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['content-type']).toBe('application/json');
  });

  it('is told by the gate how it came, whatever the sender says', async () => {
    await send('/api/commands/lot.add', '{}', { headers: { 'x-peltry-line': 'secure machine' } });
    expect(seen[0]?.headers.get('x-peltry-line')).toBe('open machine');
    expect(seen[0]?.headers.get('x-never-sent')).toBeNull();
  });

  it.each([
    ['another method', '/api/commands/lot.add', 'GET'],
    ['a question behind the name', '/api/commands/lot.add?', 'POST'],
    ['a name that is no command', '/api/commands/__proto__', 'POST'],
    ['another address', '/api/sign-in', 'POST'],
  ])('goes to the framework with %s', async (_, path, method) => {
    expect((await send(path, method === 'POST' ? '{}' : '', { method })).text).toBe('the framework');
    expect(seen).toEqual([]);
  });

  it('goes to the framework until that has loaded the door', async () => {
    place.peltryHouse = { knowsHost: () => true };
    expect((await send('/api/commands/lot.add', '{}')).text).toBe('the framework');
  });

  it('that does not say how long it is, is read no further than an entry may be', async () => {
    const many = Array.from({ length: 12 }, () => 'x'.repeat(LARGEST_BODY / 10));
    const { status, text } = await send('/api/commands/lot.add', many);
    expect(status).toBe(413);
    expect(JSON.parse(text)).toMatchObject({ ok: false, code: 'too_large' });
    expect((await send('/api/commands/lot.add', many.slice(0, 10))).status).toBe(200);
  });

  it('whose sender goes away in the middle is nothing', async () => {
    const socket = connect(port, '127.0.0.1');
    socket.write('POST /api/commands/lot.add HTTP/1.1\r\nhost: x\r\ncontent-length: 100\r\n\r\n{"a":');
    await expect.poll(() => seen.length).toBe(1);
    const reading = seen[0]?.text();
    socket.destroy();
    await expect(reading).rejects.toThrow('aborted');
    expect((await send('/api/commands/lot.add', '{}')).status).toBe(200);
  });

  it('that meets a fault is answered, so that it is sent again', async () => {
    const told = vi.spyOn(console, 'error').mockReturnValue();
    expect((await send('/api/commands/disk.fails', '{}')).status).toBe(500);
    expect(told.mock.calls.flat()).toEqual([new Error('A disk that fails in this test.')]);
    told.mockRestore();
  });
});
