import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { programFile } from '#app/server/programs.mjs';
import { STATIONS } from '#db/book/command.ts';
import { openBook } from '#db/book/open.ts';
import { recoveryWords } from '#db/certificate/sealed.ts';
import { openStore } from '#db/sign-in/store.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { cheapMark } from '#tests/db/support/passphrases.ts';
import { browserPath } from '#tests/screens/support/chromium.ts';
import { freePort, type Raw, type RawOptions, wordsOf } from '#tests/screens/support/http.ts';
import { type Machine, makeNetworks, type Networks } from '#tests/screens/support/networks.ts';
import { accepted, giveTo, openHall } from '#tests/support/hall.ts';
import { tempFolder } from '#tests/support/temp.ts';

/**
 * Three laptops and four browsers, each in a network of its own: the hall is opened, joined and worked at, its laptop is
 * lost under load, the second takes over, and a third restores. What is typed stands in docs/hall.md, and is taken from
 * there. One of the four is a real browser; the others are programs that believe the first laptop's authority and nothing
 * else, and send an entry with its key until it is answered, as the outbox does.
 */
const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
const DEVICE = fileURLToPath(new URL('../support/device.mjs', import.meta.url));
const GUIDE = readFileSync(join(ROOT, 'docs/hall.md'), 'utf8');
const PASSPHRASE = 'four wet boots drying';
const ports = { open: 3000, secure: 3443 };
const folder = tempFolder();
const stick = join(folder, 'stick');
const counted = { open: 0, follow: 0, 'take-over': 0, restore: 0 };
type Act = keyof typeof counted;
const seconds: Partial<Record<Act, number>> = {};

let networks: Networks;
let hall: string;
let laptops: readonly [Laptop, Laptop, Laptop];
let devices: readonly Device[];
let page: Page;
let ca = '';

interface Laptop extends Machine {
  readonly book: string;
}

beforeAll(async () => {
  networks = await makeNetworks();
  console.log(
    networks.kind === 'namespaces'
      ? 'Three laptops and four devices in network namespaces.'
      : `No network namespaces here (${networks.why}): addresses of this machine stand for the three laptops.`,
  );
  if (networks.kind === 'loopback') Object.assign(ports, { open: await freePort(), secure: await freePort() });
  hall = networks.at(10);
  mkdirSync(stick);
  const laptop = async (name: string, n: number): Promise<Laptop> => {
    const machine = await networks.machine(name);
    machine.address(networks.at(n), true);
    const own = join(folder, name);
    mkdirSync(own);
    return { ...machine, book: join(own, 'lantern.book') };
  };
  laptops = [await laptop('first', 10), await laptop('second', 11), await laptop('third', 12)];
  const machines = await Promise.all([1, 2, 3, 4].map((n) => networks.machine(`device ${n}`)));
  for (const [at, machine] of machines.entries()) machine.address(networks.at(101 + at), true);
  devices = machines.slice(1).map((machine) => new Device(machine));
  begin(laptops[0].book);
  const [phone] = machines;
  if (phone) page = await realBrowser(phone);
});
afterAll(async () => {
  await page?.context().browser()?.close();
  networks?.end();
});

/** A book with one worker, which has the whole hall wait for the second laptop. */
function begin(file: string): void {
  openHall({ file }).book.close();
  const [book, store] = [openBook(file), openStore(file)];
  const passphraseMark = cheapMark({ book, store }, PASSPHRASE);
  accepted(giveTo(book, 'worker.add', { input: { name: 'Ada', stations: STATIONS, passphraseMark }, key: 'Ada' }));
  // Addresses of this machine itself are in no list of a server's own: where they stand for others, the office enters one.
  const hosts = networks.kind === 'loopback' ? [hall] : [];
  const input = { hosts, plainStaff: false, waitsForSecond: true };
  accepted(giveTo(book, 'network.set', { input, key: 'the network' }));
  store.close();
  book.close();
}

/** It takes any certificate: whether a device trusts it, the other three say. */
async function realBrowser(machine: Machine): Promise<Page> {
  const executablePath = machine.shim(join(folder, 'browser'), browserPath());
  const args = ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'];
  const browser = await chromium.launch({ executablePath, args });
  const context = await browser.newContext({ ignoreHTTPSErrors: true });
  context.setDefaultTimeout(120_000);
  return context.newPage();
}

class Device {
  readonly #child: ChildProcess;
  readonly #asked = new Map<number, (answer: Raw & { readonly fault?: string }) => void>();
  readonly typed: string[] = [];
  readonly answered = new Set<string>();
  #cookie = '';
  #turnedAway = 0;

  constructor(readonly machine: Machine) {
    this.#child = machine.run(process.execPath, [DEVICE], { stdio: ['pipe', 'pipe', 'inherit'] });
    createInterface({ input: this.#child.stdout ?? expect.fail('no output') }).on('line', (line) => {
      const { id, ...answer } = JSON.parse(line);
      this.#asked.get(id)?.(answer);
      this.#asked.delete(id);
    });
  }

  /** How often a certificate was not believed. */
  get turnedAway(): number {
    return this.#turnedAway;
  }

  async ask(
    url: string,
    options: RawOptions & { readonly within?: number } = {},
  ): Promise<Raw & { readonly fault?: string }> {
    const id = Math.random();
    const answer = new Promise<Raw & { readonly fault?: string }>((resolve) => this.#asked.set(id, resolve));
    this.#child.stdin?.write(`${JSON.stringify({ id, url, ...options, ...(url.startsWith('https') && { ca }) })}\n`);
    const got = await answer;
    if (/CERT|ALTNAME|certificate|signature/i.test(got.fault ?? '')) this.#turnedAway += 1;
    return got;
  }

  say(
    path: string,
    station: string,
    body: object,
    { key, within }: { readonly key?: string; readonly within?: number } = {},
  ) {
    const headers = {
      'content-type': 'application/json',
      'x-station': station,
      origin: secure(),
      cookie: this.#cookie,
    };
    return this.ask(`${secure()}${path}`, {
      method: 'POST',
      headers: { ...headers, ...(key && { 'idempotency-key': key }) },
      body: JSON.stringify(body),
      ...(within && { within }),
    });
  }

  async signIn(said: object = { name: 'Ada', passphrase: PASSPHRASE }): Promise<void> {
    const { headers, status, fault } = await this.say('/api/sign-in', 'sign-in', said);
    if (fault) return this.signIn(said);
    if (status === 200) this.#cookie = headers['set-cookie']?.[0]?.split(';')[0] ?? '';
  }

  /** As the outbox does: the same entry with the same key, until it is answered. */
  async enter(name: string): Promise<void> {
    this.typed.push(name);
    for (;;) {
      const key = `entry of ${name}`.replaceAll(' ', '-');
      const { status } = await this.say('/api/commands/person.enrol', 'office', { name }, { key });
      if (status === 200) break;
      if (status === 401) await this.signIn();
      else expect([undefined, 429, 503]).toContain(status);
      await sleep(200);
    }
    this.answered.add(name);
  }
}

const secure = () => `https://${hall}:${ports.secure}`;

/** What the guide says to type for an act, with what stands at this hall in the place of its examples. */
function typed(act: Act, examples: Readonly<Record<string, string>>): readonly string[] {
  const blocks = [...GUIDE.matchAll(/```\n(.+)\n```/g)].map(([, line = '']) => line);
  const lines = blocks.filter((line) => (act === 'open' ? line.includes('npm start') : line.includes(`-- ${act} `)));
  expect(lines, `one command of the guide for ${act}`).toHaveLength(1);
  const line = Object.entries(examples).reduce((so, [example, own]) => so.replaceAll(example, own), lines[0] ?? '');
  return line.split(' ').filter((word) => word !== '');
}

/** Runs it at a laptop, as npm does, and gives what it says. */
function type(laptop: Laptop, act: Act, examples: Readonly<Record<string, string>> = {}) {
  counted[act] += 1;
  const words = typed(act, { ...examples, ' lantern.book': ` ${laptop.book}`, '=lantern.book': `=${laptop.book}` });
  const settings = words.filter((word) => /^[A-Z_]+=/.test(word)).map((word) => word.split('='));
  const args = words.slice(words.indexOf('--') + 1);
  const program = words.includes('start') ? join(ROOT, 'app/server/serve.mjs') : programFile('cli');
  const chosen = { PORT: String(ports.open), SECURE_PORT: String(ports.secure), PELTRY_BACKUP_MINUTES: '0' };
  const env = { ...process.env, ...chosen, PELTRY_BACKUPS_SECOND: stick, ...Object.fromEntries(settings) };
  const child = laptop.run(process.execPath, [program, ...args], { cwd: ROOT, env, detached: true });
  let said = '';
  for (const output of [child.stdout, child.stderr]) output?.on('data', (part) => (said += part));
  return {
    says: async (words: string) => {
      await expect.poll(() => said.includes(words) || child.exitCode !== null).toBe(true);
      expect(said).toContain(words);
    },
    said: () => said,
    key: async (signal: 'SIGINT' | 'SIGKILL') => {
      // The whole group, as a terminal or a power cut does.
      process.kill(-(child.pid ?? 0), signal);
      await once(child, 'close');
    },
  };
}

const namesIn = (file: string): string[] => {
  const book = openBook(file);
  const names = book.sqlite.prepare<[], string>('SELECT name FROM person').pluck().all();
  book.close();
  return names;
};

async function untilAnswered(enough: number): Promise<void> {
  const all = () => devices.reduce((so, { answered }) => so + answered.size, 0);
  const from = all();
  await expect.poll(all).toBeGreaterThanOrEqual(from + enough);
}

describe('three laptops and four devices', () => {
  it('open, join, work, lose a laptop twice, and go on: each entry once, and nobody is turned away', async () => {
    const [first, second, third] = laptops;
    // Opened.
    const opened = type(first, 'open');
    await opened.says(`Tried ${secure()}: a device that trusts the authority gets in. Go on.`);
    const words = /The six words: (.+)/.exec(opened.said())?.[1] ?? '';

    // Joined, each from the card.
    for (const device of devices) {
      const card = wordsOf((await device.ask(`http://${hall}:${ports.open}/join`)).text);
      expect(card).toContain(`${secure()}`);
      expect(card).toContain(words);
      ca = (await device.ask(`http://${hall}:${ports.open}/api/authority`)).text;
      expect((await device.ask(`${secure()}/api/join`)).status).toBe(200);
      await device.signIn();
    }
    await page.goto(`http://${hall}:${ports.open}/join`);
    await page.getByText('This device trusts the laptop.').waitFor();
    await page.getByRole('link', { name: 'Go to sign in' }).click();
    await signInByHand();

    // Paired.
    const [office] = devices;
    const { code } = JSON.parse((await office?.say('/api/office/laptops', 'office', {}))?.text ?? '{}');
    const six = words.replaceAll(' ', '-');
    const own = { '192.168.1.10:3443': `${hall}:${ports.secure}`, 'ABCD-EFGH-JKMN': code };
    const following = type(second, 'follow', { ...own, 'heron-oak-fern-lamp-otter-maple': six });
    await following.says('Caught up at line');

    // Worked at, and lost under load.
    await typeByHand('Typed While Away');
    let working = true;
    const work = devices.map(async (device, at) => {
      // As fast as three people who type without a pause; what they typed is proved line by line at every change.
      for (let n = 1; working; n += 1) {
        await device.enter(`Elm ${at + 1} of ${n}`);
        await sleep(150);
      }
    });
    await untilAnswered(12);
    await opened.key('SIGKILL');
    first.address(hall, false);
    let from = performance.now();
    await page.getByRole('button', { name: 'Enrol', exact: true }).click();
    await page.locator('.saved-mark').getByText('1 waiting').waitFor();

    // Taken over. The address moves as the router's list says; devices find it by themselves.
    await following.key('SIGINT');
    expect(following.said()).not.toContain('Warning');
    second.address(hall, true);
    const over = type(second, 'take-over');
    await over.says(`Tried ${secure()}: a device that trusts the authority gets in. Go on.`);
    await untilAnswered(1);
    seconds['take-over'] = performance.now() - from;
    await page.goto(`${secure()}/sign-in`);
    await signInByHand();
    await expect.poll(() => namesIn(second.book)).toContain('Typed While Away');
    await untilAnswered(6);
    working = false;
    await Promise.all(work);
    const answer = await office?.say('/api/office/backup', 'office', {}, { within: 120_000 });
    expect(JSON.parse(answer?.text ?? '{}')).toMatchObject({ ok: true });

    // Restored.
    const recovery = recoveryWords(second.book).replaceAll(' ', '-');
    expect(recovery).toBe(recoveryWords(first.book).replaceAll(' ', '-'));
    await over.key('SIGKILL');
    second.address(hall, false);
    third.address(hall, true);
    from = performance.now();
    const newest =
      readdirSync(stick)
        .filter((name) => name.endsWith('Z.book'))
        .sort()
        .at(-1) ?? '';
    const backup = { '/media/stick/lantern-20260228T140509123Z.book': join(stick, newest) };
    const restored = type(third, 'restore', { ...backup, 'river-oak-fern-lamp-otter-maple': recovery });
    await restored.says(`Tried ${secure()}: a device that trusts the authority gets in. Go on.`);
    const oneTime = /([A-Z0-9-]{14}) signs Ada in once/.exec(restored.said())?.[1] ?? '';
    await office?.signIn({ code: oneTime });
    await office?.enter('Ash at the third laptop');
    seconds.restore = performance.now() - from;
    await restored.key('SIGINT');

    const typedByAll = ['Typed While Away', ...devices.flatMap((device) => device.typed)];
    const names = namesIn(third.book);
    const times = typedByAll.map((name) => names.filter((one) => one === name).length);
    expect(times).toEqual(typedByAll.map(() => 1));
    expect(devices.map(({ turnedAway }) => turnedAway)).toEqual(devices.map(() => 0));
    expect(verifyBook(third.book)).toMatchObject({ ok: true });
    expect(counted).toEqual({ open: 1, follow: 1, 'take-over': 1, restore: 1 });
    const inSeconds = (act: Act) => `${((seconds[act] ?? 0) / 1000).toFixed(1)} s`;
    console.log(
      [
        `Commands: open ${counted.open}, pair ${counted.follow}, take over ${counted['take-over']}, restore ${counted.restore}. Pages read: 1.`,
        `Entries: ${typedByAll.length}, each once. Devices turned away: 0 of ${devices.length + 1}.`,
        `From the lost laptop to the next saved entry: take-over ${inSeconds('take-over')}, restore ${inSeconds('restore')}.`,
      ].join('\n'),
    );
  });
});

async function signInByHand(): Promise<void> {
  await page.getByLabel('Name', { exact: true }).fill('Ada');
  await page.getByLabel('Passphrase').fill(PASSPHRASE);
  await page.getByRole('button', { name: 'Sign in', exact: true }).click();
  await page.waitForURL((url) => !url.pathname.startsWith('/sign-in'));
  await page.goto(`${secure()}/intake`);
  await page.locator('.saved-mark').waitFor();
}

async function typeByHand(name: string): Promise<void> {
  await page.getByRole('combobox', { name: 'Who is at the table?' }).fill(name);
  await page.getByRole('option', { name: /Enrol/ }).click();
  await page.getByRole('button', { name: 'Enrol', exact: true }).waitFor();
}
