import { beforeAll, describe, expect, it } from 'vitest';
import { renderSheets } from '#app/papers/render.ts';
import { ticketPages } from '#lib/paper/labels.ts';
import { type Ticket, ticketOf } from '#lib/paper/tickets.ts';
import { GROUND, HARD_LOTS, intactTags, paperLot } from '#tests/papers/support/lots.ts';
import { checked, oneSpaced, pageSizes, type ReadBack, readBack, wordsIn } from '#tests/papers/support/pdf.ts';
import { scanParts } from '#tests/papers/support/scan.ts';

const TICKETS = HARD_LOTS.map((lot) => ticketOf(lot, GROUND));
const HEIGHTS = { letter: 792, a4: 841.89 } as const;

function textOf({ code, short, minimum, ...printed }: Ticket): string[] {
  return Object.values(printed).filter((words) => words !== '');
}

describe.each(['letter', 'a4'] as const)('tickets two a page of %s', (size) => {
  let back: ReadBack;
  beforeAll(async () => {
    back = readBack(await renderSheets(ticketPages(TICKETS, GROUND), { size }));
  });
  const half = HEIGHTS[size] / 2;
  const places = TICKETS.map((ticket, at) => ({
    ticket,
    page: 1 + Math.floor(at / 2),
    part: { x: 0, y: (at % 2) * half, width: 612, height: half },
  }));

  it('are a file without a fault, half as many pages as lots', () => {
    expect(checked(back)).toContain('No syntax or stream encoding errors found');
    expect(pageSizes(back)).toHaveLength(Math.ceil(TICKETS.length / 2));
  });

  it.each(places)('lot $ticket.lotNo: every word of the model stands on its own half', ({ ticket, page, part }) => {
    const words = oneSpaced(wordsIn(back, { page, part })).split(' ');
    for (const text of [...textOf(ticket), GROUND.association.name]) {
      for (const word of text.split(' ')) expect(words).toContain(word);
    }
  });

  it.each([200, 100])('both codes are read at %i dots an inch, one after the other', (dpi) => {
    expect(scanParts(back.file, dpi, places)).toEqual(TICKETS.map(({ code }) => ({ qr: [code], code128: [code] })));
  });
});

describe('the words of a ticket', () => {
  it('say the minimum both ways, and without reserve where the seller wants none', () => {
    const [plain, lot] = [TICKETS[0], TICKETS[1]];
    expect([plain?.minimum, plain?.longMinimum]).toEqual([
      'Minimum 25.00 each',
      'Minimum 25.00 each, 300.00 for the lot',
    ]);
    expect(lot?.longMinimum).toBe('Minimum 1,250.00 for the lot, 3.57 each');
    expect(TICKETS[4]?.longMinimum).toBe('without reserve');
  });

  it('mark green goods and carcasses, with the association’s caution or the common one', () => {
    const marks = TICKETS.map(({ lotNo, mark, shortCaution, caution }) => [lotNo, mark, shortCaution, caution]);
    const common = 'Wear waterproof gloves; wash hands and tools afterwards.';
    expect(marks.filter(([, mark]) => mark !== '')).toEqual([
      ['99999Z', 'CARCASS', 'wear gloves', common],
      ['14', 'GREEN', 'wear gloves', 'Gloves; can carry tularemia. Wash hands.'],
      ['15B', 'CARCASS', 'wear gloves', common],
    ]);
    for (const [, mark, , caution] of marks) if (mark === '') expect(caution).toBe('');
  });

  it('count the tags on a label and name them on the larger ticket', () => {
    const ticket = ticketOf(paperLot('12', { size: 'L', tags: intactTags(101, 18) }), GROUND);
    expect(ticket.short).toBe('L · 18 export tags');
    expect(ticket.tagList).toBe('18 export tags: US-CITES WY BOB 2025 000101 to 000118');
  });
});
