import { describe, expect, it } from 'vitest';
import { decideFollowAddress } from '#lib/network/hosts.ts';

describe('the address of a first laptop', () => {
  // RFC 5735, 3 and RFC 4291, 2.5.3: these never leave the machine. The last two are other spellings of 127.0.0.1.
  it.each([
    'https://192.168.1.10:3443',
    'https://hall.local:3443',
    'http://127.0.0.1:3000',
    'http://127.8.9.10:3000',
    'http://[::1]:3000',
    'http://localhost:3000',
    'http://LOCALHOST:3000',
    'http://0x7f.1:3000',
    'http://2130706433:3000',
  ])('may be %s', (address) => {
    expect(decideFollowAddress(address)).toMatchObject({ ok: true });
  });

  it.each([
    'http://192.168.1.10:3000',
    'http://0.0.0.0:3000',
    'http://hall.local:3000',
    'http://localhost.hall.local:3000',
    'http://127.0.0.1.hall.test:3000',
    'http://127.0.0.1@hall.test:3000',
    'http://localhost.:3000',
    'http://1270.0.1:3000',
    'http://[::ffff:192.168.1.10]:3000',
    'http://128.0.0.1:3000',
    'HTTP://HALL.LOCAL',
  ])('is not %s, and the sentence says which to take', (address) => {
    const decided = decideFollowAddress(address);
    expect(decided).toMatchObject({ ok: false });
    if (!decided.ok) expect(decided.message).toMatch(/Use the address that begins with https: .* Office, Network\.$/);
  });

  it.each(['192.168.1.10:3443', 'hall.local', '', 'ftp://127.0.0.1', 'file:///etc/hosts'])('is not %j', (address) => {
    expect(decideFollowAddress(address)).toMatchObject({ ok: false, code: 'malformed' });
  });
});
