import { spawnSync } from 'node:child_process';
import { readFileSync, statSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Book, openBook } from '#db/book/open.ts';
import {
  boundsOf,
  makeAuthority,
  makeCertificate,
  makeServerCertificate,
  writePair,
} from '#db/certificate/certificate.ts';
import { keepCertificate, keysOf, takeAuthority, whyAnew } from '#db/certificate/keep.ts';
import { certificateFile, certificateFolder, certificateOf, keyFile } from '#db/certificate/names.ts';
import { accepted, giveTo } from '#tests/support/hall.ts';
import { tempFile } from '#tests/support/temp.ts';

/** OpenSSL's command line is the judge: it builds and checks the chain as RFC 5280 has it, with `-x509_strict`. */
const file = tempFile();
const NOW = new Date('2026-11-20T08:00:00Z');
let book: Book;

function sayHosts(hosts: readonly string[], key: string): void {
  const input = { hosts: [...hosts], plainStaff: false };
  accepted(giveTo(book, 'network.set', { input, worker: 'Ada', station: 'office', key }));
}

beforeAll(async () => {
  book = openBook(file, { create: true });
  sayHosts(['hall.example.org'], 'first-hosts');
  const made = await makeCertificate(book, NOW);
  expect(made).toMatchObject({ ok: true, value: { newAuthority: true, endsOn: '2028-01-04' } });
});

afterAll(() => book?.close());

const openssl = (...args: string[]) => {
  const { status, stdout, stderr } = spawnSync('openssl', args, { encoding: 'utf8' });
  return { status, said: `${stdout}${stderr}` };
};

function verify(...more: string[]) {
  return verifyAt(0, ...more);
}

/** By a clock that is so many days fast. */
function verifyAt(days: number, ...more: string[]) {
  const at = String(Math.trunc(NOW.getTime() / 1000) + days * 86_400);
  const strict = ['-x509_strict', '-purpose', 'sslserver', '-attime', at];
  const [authority, server] = [certificateFile(file, 'authority'), certificateFile(file, 'server')];
  return openssl('verify', ...strict, ...more, '-CAfile', authority, server);
}

describe('the certificate of the encrypted line, verified by openssl', () => {
  it.each([
    ['-verify_hostname', 'localhost'],
    ['-verify_hostname', 'hall.example.org'],
    ['-verify_ip', '127.0.0.1'],
    ['-verify_ip', '::1'],
  ])('its chain is good for %s %s', (...name) => expect(verify(...name)).toMatchObject({ status: 0 }));

  it.each([
    ['-verify_hostname', 'elsewhere.example.org'],
    ['-verify_ip', '203.0.113.9'],
  ])('and not for %s %s', (...name) => expect(verify(...name).status).not.toBe(0));

  it.each([-400, -2, 2, 400])('is good for a phone whose clock is %d days off', (days) =>
    expect(verifyAt(days)).toMatchObject({ status: 0 }),
  );

  it.each([-420, 420])('and not for one that is %d days off', (days) => expect(verifyAt(days).status).not.toBe(0));

  it('spans fewer than the 825 days that phones take', () => {
    const { validFrom = '', validTo = '' } = certificateOf(file, 'server') ?? {};
    expect((Date.parse(validTo) - Date.parse(validFrom)) / 86_400_000).toBe(820);
  });

  it('is for servers alone, with a curve and a digest that phones take', () => {
    const { said } = openssl('x509', '-in', certificateFile(file, 'server'), '-noout', '-text');
    expect(said).toContain('TLS Web Server Authentication');
    expect(said).toContain('NIST CURVE: P-256');
    expect(said).toContain('ecdsa-with-SHA256');
    expect(said).toContain('CA:FALSE');
    expect(verify('-purpose', 'sslclient').status).not.toBe(0);
  });

  it('comes of an authority that may vouch for no public site, though its key were stolen', async () => {
    const authority = openssl('x509', '-in', certificateFile(file, 'authority'), '-noout', '-text').said;
    expect(authority).toMatch(/Name Constraints: critical/);
    expect(authority).toMatch(/CA:TRUE, pathlen:0/);
    sayHosts(['bank.example.com'], 'a-bank');
    const refused = await makeCertificate(book, NOW);
    expect(refused).toMatchObject({
      ok: false,
      code: 'not_allowed',
      message: expect.stringMatching('bank.example.com'),
    });
    sayHosts(['hall.example.org'], 'no-bank');
  });

  it('is made anew by the same authority, so that the phones keep what they have', async () => {
    const authority = openssl('x509', '-in', certificateFile(file, 'authority'), '-noout', '-fingerprint').said;
    sayHosts(['hall.example.org', 'barn.local'], 'more-hosts');
    expect(await makeCertificate(book, NOW)).toMatchObject({ ok: true, value: { newAuthority: false } });
    expect(verify('-verify_hostname', 'barn.local').status).toBe(0);
    expect(openssl('x509', '-in', certificateFile(file, 'authority'), '-noout', '-fingerprint').said).toBe(authority);
  });

  it('lies with its keys where only their owner reads them', () => {
    const mode = (path: string) => (statSync(path).mode & 0o777).toString(8);
    expect([mode(certificateFolder(file)), mode(keyFile(file, 'authority')), mode(keyFile(file, 'server'))]).toEqual([
      '700',
      '600',
      '600',
    ]);
  });
});

describe('a certificate that a thief of the key made for a bank', () => {
  it('does not pass: openssl refuses a name outside of the authority’s constraints', async () => {
    const other = tempFile();
    const authority = await makeAuthority('Stolen', [{ type: 'dns', value: 'local' }], NOW);
    expect(boundsOf(authority.certificate)).toEqual([{ type: 'dns', value: 'local' }]);
    await writePair(other, 'authority', authority);
    const forged = await makeServerCertificate(authority, [{ type: 'dns', value: 'bank.example.com' }], NOW);
    await writePair(other, 'server', forged);
    const [pem, by] = [certificateFile(other, 'server'), certificateFile(other, 'authority')];
    const at = String(Math.trunc(NOW.getTime() / 1000));
    const { status, said } = openssl('verify', '-attime', at, '-CAfile', by, pem);
    expect(status).not.toBe(0);
    expect(said).toContain('permitted subtree violation');
  });
});

describe('a certificate that is kept', () => {
  const DAY = 86_400_000;
  const later = (days: number) => new Date(NOW.getTime() + days * DAY);

  it('is made when there is none, left alone while it is good, and made anew by the same authority when it is not', async () => {
    const own = tempFile();
    const hall = openBook(own, { create: true });
    const keep = async (at: Date) => {
      const kept = await keepCertificate(hall, at);
      return kept.ok && kept.value.fresh;
    };
    const known = () => certificateOf(own, 'authority')?.fingerprint256;
    expect(whyAnew(hall, NOW)).toBe('none');
    expect(await keep(NOW)).toBe(true);
    const authority = known();
    expect([await keep(later(4)), whyAnew(hall, later(6))]).toEqual([false, 'old']);
    const input = { hosts: ['barn.lan'], plainStaff: false };
    accepted(giveTo(hall, 'network.set', { input, worker: 'Ada', station: 'office', key: 'a-barn' }));
    expect(whyAnew(hall, NOW)).toBe('addresses');
    expect(await keep(NOW)).toBe(true);
    expect(certificateOf(own, 'server')?.checkHost('barn.lan')).toBe('barn.lan');
    expect([await keep(NOW), whyAnew(hall, later(-6))]).toEqual([false, 'made by a clock that was fast']);
    expect(known()).toBe(authority);
    hall.close();
  });

  it('is made by the authority of the first laptop where that came over; what lay there is put aside', async () => {
    const own = tempFile();
    const second = openBook(own, { create: true });
    expect(await keepCertificate(second, NOW)).toMatchObject({ ok: true });
    const carried = keysOf(file, 'authority');
    if (!carried) throw new Error('There is no authority.');
    const { cert: other } = keysOf(own, 'authority') ?? { cert: '' };
    expect(takeAuthority(own, { cert: carried.cert, key: keysOf(own, 'server')?.key ?? '' })).toMatchObject({
      ok: false,
    });
    expect(takeAuthority(own, { cert: 'no certificate', key: carried.key })).toMatchObject({ ok: false });
    expect(takeAuthority(own, carried)).toEqual({ ok: true, value: 'taken' });
    expect(takeAuthority(own, carried)).toEqual({ ok: true, value: 'had' });
    expect(readFileSync(`${certificateFile(own, 'authority')}.before`, 'utf8')).toBe(other);
    expect((statSync(keyFile(own, 'authority')).mode & 0o777).toString(8)).toBe('600');
    expect(whyAnew(second, NOW)).toBe('another authority');
    expect(await keepCertificate(second, NOW)).toMatchObject({ ok: true, value: { fresh: true } });
    second.close();
    const at = String(Math.trunc(NOW.getTime() / 1000));
    const strict = ['verify', '-x509_strict', '-attime', at, '-verify_hostname', 'peltry.local'];
    expect(
      openssl(...strict, '-CAfile', certificateFile(file, 'authority'), certificateFile(own, 'server')),
    ).toMatchObject({ status: 0 });
  });
});
