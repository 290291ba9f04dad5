import { mkdirSync } from 'node:fs';
import { expect, it, vi } from 'vitest';
import { addressChange, noteAddresses } from '#app/server/address-change.ts';
import { certificateFolder } from '#db/certificate/names.ts';
import { tempFile } from '#tests/support/temp.ts';

vi.mock('server-only', () => ({}));

const HOUR = 3_600_000;

it('sees that the router gave another address, over a restart too, until the old one is back or half a day is over', () => {
  const file = tempFile();
  noteAddresses(file, ['192.168.1.10'], 0);
  expect(addressChange(file, 0)).toBeNull();
  mkdirSync(certificateFolder(file), { recursive: true });
  noteAddresses(file, ['192.168.1.10', 'barn.lan'], 0);
  expect(addressChange(file, 0)).toBeNull();
  // A second cable takes nothing away.
  noteAddresses(file, ['192.168.0.7', '192.168.1.10'], HOUR);
  expect(addressChange(file, HOUR)).toBeNull();
  noteAddresses(file, ['barn.lan'], HOUR);
  expect(addressChange(file, HOUR)).toBeNull();
  noteAddresses(file, ['192.168.1.23'], HOUR);
  const change = addressChange(file, 2 * HOUR);
  expect(change?.at).toBe(HOUR);
  expect(change?.office).toContain('had the address 192.168.1.10 and now has 192.168.1.23');
  expect(change?.station).toContain('wait at 192.168.1.10');
  noteAddresses(file, ['192.168.1.23'], 3 * HOUR);
  expect(addressChange(file, 3 * HOUR)?.at).toBe(HOUR);
  expect(addressChange(file, 14 * HOUR)).toBeNull();
  noteAddresses(file, ['192.168.1.10'], 4 * HOUR);
  expect(addressChange(file, 4 * HOUR)).toBeNull();
  noteAddresses(file, ['192.168.1.99'], 5 * HOUR);
  expect(addressChange(file, 5 * HOUR)?.office).toContain('had the address 192.168.1.10 and now has 192.168.1.99');
});
