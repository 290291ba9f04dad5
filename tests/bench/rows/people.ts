/** Finding somebody at the check-in table among 5,000 people: in the book, and as the laptop at the table has it. */

import { saleById } from '#db/book/find.ts';
import { openBook } from '#db/book/open.ts';
import { findPeople } from '#db/person/queries.ts';
import { newFile } from '#tests/bench/big-book.ts';
import { median, percentile } from '#tests/bench/figures.ts';
import { type Bench, type Line, timed, timedLater } from '#tests/bench/row.ts';
import { shown } from '#tests/bench/table.ts';
import ensureBuild from '#tests/screens/support/built.ts';
import { startServer } from '#tests/screens/support/server.ts';
import { openHall } from '#tests/support/hall.ts';
import { type Chance, chanceOf } from '#tests/support/random.ts';

/** One pass over the same people, for one part of a name. */
const OWN_PASS = 'SELECT id FROM person WHERE instr(name_folded, ?) > 0 ORDER BY name_folded LIMIT 8';
const FIRST = ['Zoë', 'Søren', 'Inês', 'Wade', 'Nora', 'Päivi', 'Xóchitl', 'Hester', 'Björn', 'June'];
const LAST = ['Łącka', 'Birchwood', 'Fitzhallam', 'Ødegårdsli', 'Redwillow', 'Grünfelder', 'Carvalhinho', 'Tallowell'];

const row = async (bench: Bench): Promise<Line[]> => {
  const people = bench.short ? 200 : 5000;
  const file = newFile();
  fill(file, people);
  const runs: Run[] = [];
  for (let run = 0; run < bench.runs; run += 1) runs.push(inTheBook(file, run));
  const wire = await overTheWire(file, bench.runs);
  const what = `a person among ${people} by what is typed`;
  const target = { atMost: 50 };
  return [
    {
      what: `${what}, in the book, p95`,
      against: '–',
      figures: runs.map(({ ours }) => percentile(ours, 0.95)),
      ...{ unit: 'ms', target },
      seen: `median ${shown(median(runs.flatMap(({ ours }) => ours)))} ms`,
    },
    {
      what: `${what}, in the book`,
      against: 'the time of one plain pass of SQLite over the names',
      figures: runs.map(({ ours, own }) => median(ours) / median(own)),
      unit: '×',
      seen: `SQLite ${shown(median(runs.flatMap(({ own }) => own)))} ms`,
    },
    {
      what: `${what}, answered over HTTP, p95`,
      against: '–',
      figures: wire.map((times) => percentile(times, 0.95)),
      ...{ unit: 'ms', target },
      seen: `median ${shown(median(wire.flat()))} ms`,
    },
  ];
};

export default row;

function fill(file: string, people: number): void {
  const hall = openHall({ file });
  const chance = chanceOf(1);
  for (let at = 0; at < people; at += 1) {
    const name = `${chance.pick(FIRST)} ${chance.pick(LAST)}-${at}`;
    const phone = `307-555-${String(at).padStart(4, '0')}`;
    hall.must('person.enrol', { name, phone, memberNo: `LR-${at}`, licenceNo: `T-${at * 7}`, city: 'Tamarack' });
  }
  hall.book.close();
}

/** What people at a table type: the beginning of a name key by key, two parts of it, a member number, a phone. */
function typed(chance: Chance): string {
  const name = chance.pick(LAST).toLowerCase();
  const part = name.slice(0, chance.int(1, name.length));
  const number = String(chance.int(0, 4999));
  return chance.pick([part, part, `${chance.pick(FIRST)} ${part}`, `lr-${number}`, `555-${number}`, `t-${number}`]);
}

interface Run {
  readonly ours: readonly number[];
  readonly own: readonly number[];
}

const ASKED = 300;

function inTheBook(file: string, seed: number): Run {
  const book = openBook(file);
  const sale = saleById(book, 1);
  if (!sale) throw new Error('The book has no sale.');
  const own = book.sqlite.prepare(OWN_PASS);
  const chance = chanceOf(seed);
  const times = Array.from({ length: ASKED }, () => {
    const text = typed(chance);
    return { ours: timed(() => findPeople(book, { text, sale })), own: timed(() => own.all(text)) };
  });
  book.close();
  return { ours: times.map(({ ours }) => ours), own: times.map(({ own: took }) => took) };
}

async function overTheWire(file: string, runs: number): Promise<number[][]> {
  ensureBuild();
  const server = await startServer({ bookFile: file });
  const taken: number[][] = [];
  try {
    for (let run = -1; run < runs; run += 1) {
      const chance = chanceOf(run + 100);
      const times: number[] = [];
      for (let at = 0; at < ASKED; at += 1) {
        const address = `${server.url}/api/views/people?sale=1&q=${encodeURIComponent(typed(chance))}`;
        times.push(await timedLater(async () => (await fetch(address)).json()));
      }
      // The first hundreds are asked of a server that has just started.
      if (run >= 0) taken.push(times);
    }
  } finally {
    await server.stop();
  }
  return taken;
}
