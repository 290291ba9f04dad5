import { once } from 'node:events';
import { createServer, type Server } from 'node:http';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { gate } from '#app/server/gate.mjs';
import { freePort, raw } from '#tests/screens/support/http.ts';

/** A gate before a server that has no turn left for anybody. */
let server: Server;
let url: string;
const shares = {
  ...{ of: () => ({ client: { name: 'a phone' } }), asks: () => true, refused: () => undefined },
  page: (_held: object, _response: object, _draw: () => void, refuse: (over: string) => void) => refuse('pages'),
};
const book = { shares: () => shares, hear: () => '', looked: () => '', signs: () => ({}), knowsHost: () => true };

beforeAll(async () => {
  const port = await freePort();
  url = `http://127.0.0.1:${port}/intake`;
  server = createServer(gate({ secure: false, handle: () => expect.fail('no turn'), book: book as never }));
  await once(server.listen(port, '127.0.0.1'), 'listening');
});
afterAll(() => void server.close());

it('refuses a page in words, and cuts a page that reads its figures anew, which would go away from what is typed', async () => {
  const refused = await raw(url);
  expect([refused.status, refused.text]).toEqual([503, expect.stringContaining('Too many pages are asked for')]);
  await expect(raw(url, { headers: { rsc: '1' } })).rejects.toThrow(/hang up|ECONNRESET/);
});
