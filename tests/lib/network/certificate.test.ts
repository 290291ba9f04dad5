import { expect, it } from 'vitest';
import { certificateAmiss } from '#lib/network/certificate.ts';

const facts = { host: '192.168.1.10', covers: true, validFrom: 1000, validTo: 2000 };

it('tells an ended certificate, a laptop whose clock is behind, and a wrong host apart, each in its own words', () => {
  expect(certificateAmiss(facts, 1000)).toBeUndefined();
  expect(certificateAmiss(facts, 2000)).toBeUndefined();
  const all = [
    certificateAmiss(facts, 2001),
    certificateAmiss(facts, 999),
    certificateAmiss({ ...facts, covers: false }, 1500),
  ];
  expect(all[0]?.device).toContain('has ended');
  expect(all[1]?.device).toContain('clock of the laptop');
  expect(all[2]?.device).toContain('not for 192.168.1.10');
  const sentences = all.flatMap((amiss) => [amiss?.device, amiss?.office]);
  expect(new Set(sentences).size).toBe(6);
});
