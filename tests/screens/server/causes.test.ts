import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '#db/book/open.ts';
import { makeCertificate } from '#db/certificate/certificate.ts';
import { certificateFile, certificateFolder } from '#db/certificate/names.ts';
import { openStore } from '#db/sign-in/store.ts';
import { cheapMark } from '#tests/db/support/passphrases.ts';
import { newPage, theBrowser } from '#tests/screens/support/browser.ts';
import { freePort, raw, wordsOf } from '#tests/screens/support/http.ts';
import { type Server, startServer } from '#tests/screens/support/server.ts';
import { workerIn } from '#tests/screens/support/worker.ts';
import { accepted, giveTo, openHall } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

/** Why a device does not get in: each cause has a sentence of its own, on the device and at the Office. */
const file = tempFile('lantern.book');
const DAY = 86_400_000;
/** The browser of this test trusts no authority of ours. */
const NOT_TRUSTED = { expected: [/ERR_CERT/] };
const BEA = { name: 'Bea', passphrase: 'four wet boots drying' };
let server: Server;
let cookie: string;
let securePort: number;
const secure = () => `https://127.0.0.1:${securePort}`;
const ca = () => readFileSync(certificateFile(file, 'authority'), 'utf8');

beforeAll(async () => {
  openHall({ file }).book.close();
  cookie = `peltry-plain=${workerIn(file, 'Ada', { stations: ['office'] }).token}`;
  const [book, store] = [openBook(file), openStore(file)];
  const input = {
    name: BEA.name,
    stations: ['intake' as const],
    passphraseMark: cheapMark({ book, store }, BEA.passphrase),
  };
  accepted(giveTo(book, 'worker.add', { input, key: 'Bea' }));
  store.close();
  book.close();
  // As the last hall left it: the router had given another address then.
  mkdirSync(certificateFolder(file), { recursive: true });
  const address = { address: '192.168.77.7', was: '', at: 0 };
  writeFileSync(join(certificateFolder(file), 'address.json'), JSON.stringify(address));
  securePort = await freePort();
  server = await startServer({ bookFile: file, openLine: false, env: { SECURE_PORT: String(securePort) } });
  const headers = { 'content-type': 'application/json', 'x-station': 'office', origin: server.url, cookie };
  await raw(`${server.url}/api/office/hall`, { method: 'POST', body: JSON.stringify({ open: true }), headers });
});
afterAll(() => server?.stop());

const atOffice = async () => wordsOf((await raw(`${server.url}/office/network`, { headers: { cookie } })).text);

const signIn = (clock: number) => {
  const headers = { 'content-type': 'application/json', 'x-station': 'sign-in', origin: secure() };
  const body = JSON.stringify({ ...BEA, clock });
  return raw(`${secure()}/api/sign-in`, { method: 'POST', headers, body, ca: ca() });
};

describe('a device that does not get in', () => {
  it('came by a wrong name', async () => {
    const said = await raw(`${server.url}/board`, { headers: { host: 'barn.lan', accept: 'text/html' } });
    expect(said.status).toBe(421);
    expect(wordsOf(said.text)).toContain('This machine is not known under that name. Use http');
    expect(await atOffice()).toContain('A device asked for “barn.lan”, which is no name of this laptop');
  });

  it('came with http to the port for https', async () => {
    const led = await raw(`http://127.0.0.1:${securePort}/intake`);
    expect([led.status, led.headers.location]).toEqual([307, `${secure()}/intake`]);
    expect(led.text).toContain('Ask again with an address that begins with https');
    expect(await atOffice()).toContain('A device came with http to the port for https');
  });

  it('has a clock that is 2 or 400 days off: it is told before it signs in, gets in, and the office hears it', async () => {
    const page = await newPage(await theBrowser(), NOT_TRUSTED);
    for (const [days, words] of [
      [-2, '2 days slow'],
      [400, '400 days fast'],
    ] as const) {
      await page.clock.setFixedTime(Date.now() + days * DAY);
      for (const path of ['/join', '/sign-in']) {
        await page.goto(`${server.url}${path}`);
        await page.getByText(`The clock of this device is ${words}`).waitFor();
      }
      expect((await signIn(Date.now() + days * DAY)).status).toBe(200);
      expect(await atOffice()).toContain(`The clock of the device of Bea is ${words}`);
    }
    expect((await signIn(Date.now())).status).toBe(200);
  });

  it('knows an address that the router has given away since', async () => {
    const said = /This laptop had the address 192\.168\.77\.7 and now has [\d.]+\d/;
    // Where this machine has no network at all there is no address that could change.
    if (/Everybody joins at http:\/\/\d/.test(await atOffice())) expect(await atOffice()).toMatch(said);
    const station = wordsOf((await raw(`${server.url}/office`, { headers: { cookie } })).text);
    if (/Everybody joins at http:\/\/\d/.test(await atOffice()))
      expect(station).toContain('Entries that were waiting in this device wait at 192.168.77.7');
  });

  it('meets a certificate that it does not trust, that its clock makes old, or that has ended: the card says which', async () => {
    const good = readFileSync(certificateFile(file, 'server'));
    const page = await newPage(await theBrowser(), NOT_TRUSTED);
    await page.goto(`${server.url}/join`);
    await page.getByText('This device does not trust the laptop yet.').waitFor();
    await page.clock.setFixedTime(Date.now() + 500 * DAY);
    await page.reload();
    await page.getByText('This device refuses the certificate because of its clock.').waitFor();
    await page.clock.setFixedTime(Date.now());

    const other = tempFile('other.book');
    openHall({ file: other }).book.close();
    const book = openBook(other);
    await makeCertificate(book, new Date(Date.now() - 900 * DAY));
    book.close();
    writeFileSync(certificateFile(file, 'server'), readFileSync(certificateFile(other, 'server')));
    expect(await atOffice()).toContain('The certificate has ended: no device gets in.');
    await page.reload();
    await page.getByText('The certificate of the laptop has ended: tell the office.').waitFor();
    writeFileSync(certificateFile(file, 'server'), good);
  });
});
