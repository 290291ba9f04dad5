import { beforeAll, describe, expect, it } from 'vitest';
import { renderSheets } from '#app/papers/render.ts';
import { labelSpot, NO_OFFSET, type Offset, type Spot } from '#lib/paper/label-stock.ts';
import { alignmentPage, labelPages } from '#lib/paper/labels.ts';
import { type Ticket, ticketOf } from '#lib/paper/tickets.ts';
import { GROUND, HARD_LOTS, LONG_GOODS, paperLot } from '#tests/papers/support/lots.ts';
import { checked, fonts, oneSpaced, pageSizes, type ReadBack, readBack, wordsIn } from '#tests/papers/support/pdf.ts';
import { greyOf, scanParts } from '#tests/papers/support/scan.ts';

const PLAIN = Array.from({ length: 22 }, (_, at) => paperLot(String(300 + at), { sellerNo: 20 + at, size: 'L' }));
const TICKETS = [...HARD_LOTS, ...PLAIN].map((lot) => ticketOf(lot, GROUND));
const START = 5;
/** Where each ticket lies: page from 1, and label. */
const PLACES = TICKETS.map((ticket, at) => {
  const place = START - 1 + at;
  return { ticket, page: 1 + Math.floor(place / 30), spot: labelSpot((place % 30) + 1, NO_OFFSET) };
});

const partsOf = (places: readonly { page: number; spot: Spot }[]) =>
  places.map(({ page, spot }) => ({ page, part: spot }));

function textOf({ lotNo, seller, goods, short, quantity, minimum, mark, shortCaution }: Ticket): string[] {
  // A long name of goods takes the line of its size and grade.
  const second = goods === LONG_GOODS ? '' : short;
  return [lotNo, seller, goods, second, quantity, minimum, mark, shortCaution].filter((words) => words !== '');
}

describe('tickets on a sheet of labels', () => {
  let back: ReadBack;
  beforeAll(async () => {
    const pages = labelPages(TICKETS, GROUND, { start: START, offset: NO_OFFSET });
    back = readBack(await renderSheets(pages, { size: 'a4' }));
  });

  it('are a file without a fault, on letter paper whatever the association prints on', () => {
    expect(checked(back)).toContain('No syntax or stream encoding errors found');
    expect(pageSizes(back)).toEqual(['612 x 792', '612 x 792']);
    for (const font of fonts(back)) expect(font).toMatchObject({ embedded: true, unicode: true });
  });

  it.each(PLACES)('lot $ticket.lotNo: every word of the model stands on its own label', ({ ticket, page, spot }) => {
    const text = oneSpaced(wordsIn(back, { page, part: spot }));
    for (const words of textOf(ticket)) for (const word of words.split(' ')) expect(text.split(' ')).toContain(word);
  });

  it('and no word lies on no label, or nearer to its edge than 1 mm', () => {
    const MM = 72 / 25.4;
    const inner = PLACES.map(({ page, spot: { x, y, width, height } }) => {
      const part = { x: x + MM, y: y + MM, width: width - 2 * MM, height: height - 2 * MM };
      return oneSpaced(wordsIn(back, { page, part })).trim();
    });
    const words = (text: string) => text.split(' ').filter((word) => word !== '').length;
    const onLabels = inner.reduce((so, text) => so + words(text), 0);
    expect(onLabels).toBe(words(oneSpaced(back.text).trim()));
  });

  it('the labels before the first that is left stay empty', () => {
    for (let label = 1; label < START; label += 1) {
      expect(wordsIn(back, { page: 1, part: labelSpot(label, NO_OFFSET) }).trim()).toBe('');
    }
  });

  // zbarimg is a reader of others’ making; 200 dots an inch is a plain label printer.
  it('each carries its lot in both codes, read at 200 dots an inch', () => {
    const read = scanParts(back.file, 200, partsOf(PLACES));
    expect(read).toEqual(PLACES.map(({ ticket }) => ({ qr: [ticket.code], code128: [ticket.code] })));
  });

  it('the QR code is read at 100 dots an inch too, where a bar is a single dot', () => {
    const read = scanParts(back.file, 100, partsOf(PLACES.slice(0, 8)));
    expect(read.map(({ qr }) => qr)).toEqual(PLACES.slice(0, 8).map(({ ticket }) => [ticket.code]));
  });
});

describe('a full sheet of labels', () => {
  const full = [...TICKETS, ticketOf(paperLot('330'), GROUND)];
  const spots = full.map((_, at) => labelSpot(at + 1, NO_OFFSET));
  const codes = full.map(({ code }) => code);
  let file: string;
  beforeAll(async () => {
    file = readBack(await renderSheets(labelPages(full, GROUND), { size: 'letter' })).file;
  });

  it('has every label read in both codes when it is cut along the grid', () => {
    expect(codes).toHaveLength(30);
    const read = scanParts(file, 200, partsOf(spots.map((spot) => ({ page: 1, spot }))));
    expect(read).toEqual(codes.map((code) => ({ qr: [code], code128: [code] })));
  });

  it.each([1, 14])('has label %i read in both codes where a phone sees parts of its neighbours too', (label) => {
    const { x, y, width, height } = labelSpot(label, NO_OFFSET);
    const part = { x: x - 30, y: y - 30, width: width + 60, height: height + 60 };
    const [read] = scanParts(file, 300, [{ page: 1, part }]);
    expect(read?.qr).toContain(codes[label - 1]);
    expect(read?.code128).toContain(codes[label - 1]);
  });
});

/** Where a row or column of the picture is dark, in millimetres: the middle of each run of dark dots. */
function darkAt(length: number, grey: (at: number) => number): number[] {
  const runs: number[][] = [];
  for (let at = 0; at < length; at += 1) {
    if (grey(at) > 160) continue;
    const run = runs.at(-1);
    if (run && run.at(-1) === at - 1) run.push(at);
    else runs.push([at]);
  }
  return runs.map((run) => ((run[0] ?? 0) + (run.at(-1) ?? 0) + 1) / 2 / DOTS_A_MM);
}

const DOTS_A_MM = 10;

describe('the alignment page, measured from the picture of it', () => {
  // Published dimensions of the stock, from memory: 2 5/8 by 1 inch, 3 across and 10 down, 3/16 in from the side,
  // 1/2 in from the top, 2 3/4 in from label to label across and 1 in down. An inch is 25.4 mm.
  const ACROSS = [0, 1, 2].flatMap((column) => [3 / 16 + column * 2.75, 3 / 16 + column * 2.75 + 2.625]);
  const DOWN = Array.from({ length: 11 }, (_, row) => 0.5 + row);

  it.each<[string, Offset]>([
    ['as it is', NO_OFFSET],
    ['moved', { rightTenthsMm: 15, downTenthsMm: -8 }],
  ])('has its frames within half a millimetre of where the labels are, %s', async (_, offset) => {
    const back = readBack(await renderSheets([alignmentPage(GROUND, offset)], { size: 'letter' }));
    const grey = greyOf(back.file, { page: 1, dpi: DOTS_A_MM * 25.4 });
    // A row a quarter into the second line of labels, and a column a quarter into the first, cross frames only.
    const row = Math.round((1.5 + 0.25) * 25.4 * DOTS_A_MM);
    const column = Math.round((3 / 16 + 2.625 * 0.8) * 25.4 * DOTS_A_MM);
    const across = darkAt(grey.width, (x) => grey.at(x, row));
    const down = darkAt(grey.height, (y) => grey.at(column, y));
    expect(across).toHaveLength(6);
    expect(down).toHaveLength(11);
    const off = (found: readonly number[], inches: readonly number[], tenths: number) =>
      found.map((mm, at) => Math.abs(mm - (inches[at] ?? 0) * 25.4 - tenths / 10));
    expect(Math.max(...off(across, ACROSS, offset.rightTenthsMm))).toBeLessThan(0.5);
    expect(Math.max(...off(down, DOWN, offset.downTenthsMm))).toBeLessThan(0.5);
  });

  it('says how it was printed and what to do', async () => {
    const sheet = alignmentPage(GROUND, { rightTenthsMm: 15, downTenthsMm: -8 });
    const back = readBack(await renderSheets([sheet], { size: 'letter' }));
    for (const { spot, no, sentence } of sheet.labels) {
      const found = wordsIn(back, { page: 1, part: spot }).split(' ');
      expect(found.sort()).toEqual(`${no} ${sentence}`.trim().split(' ').sort());
    }
    expect(back.text).toContain('1.5 mm to the right and -0.8 mm');
  });
});

describe('the pages of labels', () => {
  it('begin where the sheet still has labels, and go on at the first of the next', () => {
    const pages = labelPages(TICKETS, GROUND, { start: 30, offset: NO_OFFSET });
    expect(pages.map(({ labels }) => labels.length)).toEqual([1, 28]);
    expect(pages[0]?.labels[0]?.spot).toEqual(labelSpot(30, NO_OFFSET));
    expect(pages[1]?.labels[0]?.spot).toEqual(labelSpot(1, NO_OFFSET));
    expect(pages.flatMap(({ labels }) => labels.map(({ ticket }) => ticket))).toEqual(TICKETS);
  });
  it('are none without tickets', () => expect(labelPages([], GROUND)).toEqual([]));
});
