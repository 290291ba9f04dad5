import { describe, expect, it } from 'vitest';
import { renderSheets } from '#app/papers/render.ts';
import { DEVICES } from '#lib/network/devices.ts';
import { joinCard } from '#lib/paper/join-card.ts';
import { GROUND } from '#tests/papers/support/lots.ts';
import { checked, pageSizes, readBack, wordsIn } from '#tests/papers/support/pdf.ts';
import { scanParts } from '#tests/papers/support/scan.ts';

const WORDS = 'heron oak fern lamp otter maple';
const FACTS = { open: 'http://192.168.1.10:3000', secure: 'https://192.168.1.10:3443', words: WORDS };
const WHOLE = { page: 1, part: { x: 0, y: 0, width: 612, height: 792 } };

describe.each(['letter', 'a4'] as const)('the card for the wall on %s', (size) => {
  it('is one page with the address, its code, the six words, and the steps of every kind of device', async () => {
    const back = readBack(await renderSheets([joinCard(GROUND, FACTS)], { size }));
    expect(checked(back)).toContain('No syntax or stream encoding errors found');
    expect(pageSizes(back)).toHaveLength(1);
    const [found] = scanParts(back.file, 100, [WHOLE]);
    expect(found?.qr).toEqual(['http://192.168.1.10:3000/join']);
    const words = wordsIn(back, WHOLE);
    for (const said of ['http://192.168.1.10:3000/join', WORDS, FACTS.secure]) expect(words).toContain(said);
    for (const { name, steps } of DEVICES)
      for (const said of [name, steps[0].slice(0, 24)]) expect(words).toContain(said);
  });
});

it('asks for no certificate where nothing is encrypted', () => {
  const card = joinCard(GROUND, { ...FACTS, secure: '', words: '' });
  expect([card.devices, card.behind]).toEqual([[], []]);
});
