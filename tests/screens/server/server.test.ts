import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { tempFile } from '#tests/support/temp.ts';

let server: Server;

beforeAll(async () => {
  server = await startServer({ bookFile: tempFile() });
});

afterAll(() => server.stop());

const answers = async () => (await fetch(server.url, { redirect: 'manual' })).status;
const refuses = () =>
  fetch(server.url).then(
    () => 'answered',
    () => 'nobody there',
  );

describe('the server of a browser test', () => {
  it('answers once it is started', async () => {
    expect(await answers()).toBeLessThan(400);
    expect(server.log()).toContain('Ready');
  });

  it('is gone after a kill and back on the same address after a restart', async () => {
    await server.kill();
    expect(await refuses()).toBe('nobody there');
    await server.restart();
    expect(await answers()).toBeLessThan(400);
  });

  it('is gone after a stop', async () => {
    await server.stop();
    expect(await refuses()).toBe('nobody there');
  });
});
