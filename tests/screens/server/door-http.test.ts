import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { logHead } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { allCommands } from '#db/commands.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { REFUSAL_CODES } from '#lib/result/result.ts';
import { fillSellingBook } from '#tests/screens/support/selling-book.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { inputOf, type Schema } from '#tests/support/hostile.ts';
import { tempFile } from '#tests/support/temp.ts';

/** FUZZ_ENTRIES=10000 by hand. */
const ENTRIES = Number.parseInt(process.env.FUZZ_ENTRIES ?? '100', 10);
const SEED = Number.parseInt(process.env.FUZZ_SEED ?? '', 10) || Date.now() % 2 ** 31;

const bookFile = tempFile();
let server: Server;
let sent = 0;

beforeAll(async () => {
  fillSellingBook(bookFile, { lots: 6 }).close();
  server = await startServer({ bookFile });
});
afterAll(() => server?.stop());

interface Door {
  readonly name: string;
  readonly station: string;
}

async function send({ name, station }: Door, body: BodyInit, over: Record<string, string> = {}) {
  sent += 1;
  const answer = await fetch(`${server.url}/api/commands/${name}`, {
    method: 'POST',
    headers: {
      ...{ 'content-type': 'application/json', 'idempotency-key': `hostile-${sent}`, 'x-station': station },
      origin: server.url,
      ...over,
    },
    body,
  });
  const said = (await answer.json()) as { ok?: boolean; code?: string; detail?: string };
  if (answer.status !== 200) expect(REFUSAL_CODES).toContain(said.code);
  return { status: answer.status, code: said.code };
}

function head() {
  const book = openBook(bookFile);
  const { seq } = logHead(book);
  book.close();
  return seq;
}

const entry = fc
  .constantFrom(...allCommands().filter(({ name }) => !name.startsWith('worker.')))
  .chain(({ name, stations, input }) =>
    fc.record({
      ...{ name: fc.constant(name), station: fc.constantFrom(...stations) },
      input: inputOf(z.toJSONSchema(input, { io: 'input', unrepresentable: 'any' }) as Schema, () => undefined),
    }),
  );

/** What is nested too deep for this side to write down is sent as text above. */
function hasText({ input }: { readonly input: unknown }): boolean {
  try {
    return JSON.stringify(input) !== undefined;
  } catch {
    return false;
  }
}

describe('the door over HTTP', { timeout: 3_600_000 }, () => {
  it('answers bodies that are no entry with a refusal that is named, and the book is as it was', async () => {
    const before = head();
    const enrol = (body: BodyInit, over?: Record<string, string>) =>
      send({ name: 'person.enrol', station: 'office' }, body, over);
    const large = `{"name":"${'x'.repeat(10_000_000)}"}`;
    expect(await enrol(large)).toEqual({ status: 413, code: 'too_large' });
    for (const body of ['', '{', 'null', '[]', '"text"', '1e999', '\u0000', '{"name":"\\ud800"}', '['.repeat(400_000)])
      expect((await enrol(body)).status, body.slice(0, 20)).toBe(422);
    for (const bytes of [new Uint8Array([0xff, 0xfe, 0x00]), new Uint8Array([0xc3, 0x28])])
      expect((await enrol(bytes)).status).toBe(422);
    const deep = `{"sale":${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}}`;
    expect((await send({ name: 'sale.import', station: 'office' }, deep)).code).toBe('malformed');
    expect((await send({ name: '__proto__', station: 'office' }, '{}')).code).toBe('unknown');
    expect((await send({ name: 'constructor', station: 'office' }, '{}')).code).toBe('unknown');
    expect((await enrol('{"name":"x"}', { 'content-type': 'text/plain' })).code).toBe('malformed');
    expect((await enrol('{"name":"x"}', { 'x-station': 'toString' })).status).toBe(400);
    expect((await enrol('{"name":"x"}', { 'idempotency-key': "'; --" })).status).toBe(400);
    expect(head()).toBe(before);
  });

  it('takes or refuses hostile entries of every command, and the pages still show the book', async () => {
    const before = head();
    const seen = { accepted: 0, refused: 0 };
    const check = fc.asyncProperty(entry.filter(hasText), async ({ input, ...door }) => {
      const { status } = await send(door, JSON.stringify(input));
      expect(status).toBeLessThan(500);
      seen[status === 200 ? 'accepted' : 'refused'] += 1;
    });
    await fc.assert(check, { numRuns: ENTRIES, seed: SEED, endOnFailure: true });
    console.log(`${ENTRIES} entries over HTTP (FUZZ_SEED=${SEED}): ${JSON.stringify(seen)}`);
    expect(head()).toBe(before + seen.accepted);
    for (const path of ['/', '/intake', '/block', '/till', '/payout', '/office/log', '/board', '/prices'])
      expect((await fetch(`${server.url}${path}`)).status, path).toBe(200);
    expect(verifyBook(bookFile)).toMatchObject({ ok: true, problems: [] });
  });
});

describe('what the door over HTTP answers', () => {
  const good = '{"name":"Ada Fenwright"}';
  const answers = [
    { body: '', over: {}, status: 422, code: 'malformed' },
    { body: '{', over: {}, status: 422, code: 'malformed' },
    { body: '{"name":""}', over: {}, status: 422, code: 'malformed' },
    { body: '{"name":"x","odd":1}', over: {}, status: 422, code: 'malformed' },
    { body: good, over: {}, status: 200, code: undefined },
    { body: 'x'.repeat(1_000_001), over: {}, status: 413, code: 'too_large' },
    { body: good, over: { origin: 'http://elsewhere.example' }, status: 403, code: 'not_allowed' },
    { body: good, over: { 'x-station': 'nowhere' }, status: 400, code: 'malformed' },
    { body: good, over: { 'x-station': 'block' }, status: 403, code: 'not_allowed' },
    { body: good, over: { 'idempotency-key': 'short' }, status: 400, code: 'malformed' },
    { body: good, over: { 'content-type': 'text/plain' }, status: 422, code: 'malformed' },
    { body: good, over: { cookie: 'peltry-plain=nobody' }, status: 200, code: undefined },
  ] satisfies { body: string; over: Record<string, string>; status: number; code: string | undefined }[];

  it.each(answers)('is $status $code: $over', async ({ body, over, status, code }) => {
    const { status: got, code: said } = await send({ name: 'person.enrol', station: 'office' }, body, over);
    expect({ status: got, code: said }).toEqual({ status, code });
  });

  it('is the answer to the very first entry after a start, before any page was asked for', async () => {
    await server.restart();
    expect((await send({ name: 'person.enrol', station: 'office' }, good)).status).toBe(200);
  });
});

describe('the stream of events', () => {
  it('says at once how far the log has come, from which a page knows what it has missed', async () => {
    const stop = new AbortController();
    const answer = await fetch(`${server.url}/api/live`, { signal: stop.signal });
    const first = await answer.body?.getReader().read();
    stop.abort();
    expect(new TextDecoder().decode(first?.value)).toBe(`data: {"line":${head()},"stopped":false}\n\n`);
  });
});
