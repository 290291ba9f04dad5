import { once } from 'node:events';
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { defineCommand, STATIONS } from '#db/book/command.ts';
import { submit, submitUntyped } from '#db/book/door.ts';
import { logHead } from '#db/book/log.ts';
import { openBook } from '#db/book/open.ts';
import { allCommands } from '#db/commands.ts';
import { checkChain } from '#db/verify/chain.ts';
import { accept } from '#lib/result/result.ts';
import { AT, openHall, rowsOf } from '#tests/support/hall.ts';
import { endOf, startScript } from '#tests/support/process.ts';
import { tempFile } from '#tests/support/temp.ts';

const enrol = (name: string, key: string) =>
  ({ command: 'person.enrol', input: { name }, worker: 'Ada', station: 'intake', at: AT, key }) as const;

describe('a command that comes again with its key', () => {
  it('gets the same answer and the same line, and acts once', () => {
    const { book } = openHall();
    const first = submit(book, enrol('Dee Elm', 'twice'));
    const rows = rowsOf(book);
    const again = submit(book, { ...enrol('Dee Elm', 'twice'), at: '2026-02-28T11:00:00Z', worker: 'Bea' });
    expect(first).toMatchObject({ ok: true, repeated: false });
    expect(again).toEqual({ ...first, repeated: true });
    expect(rowsOf(book)).toEqual(rows);
  });

  it('is the same however its input is spelled', () => {
    const { book } = openHall();
    const one = { ...enrol('', 'spelled'), input: { name: 'Dee Elm', city: 'Harrow' } };
    const other = { ...one, input: { city: 'Harrow', name: 'Dee Elm' } };
    const first = submit(book, one);
    expect(submit(book, other)).toEqual({ ...first, repeated: true });
  });

  it('is a conflict with another input, or as another command', () => {
    const { book } = openHall();
    submit(book, enrol('Dee Elm', 'key'));
    const rows = rowsOf(book);
    expect(submit(book, enrol('Dee Oak', 'key'))).toMatchObject({ ok: false, code: 'conflict', field: 'key' });
    const other = { ...enrol('', 'key'), command: 'association.set', station: 'office' } as const;
    expect(submit(book, { ...other, input: { name: 'Dee Elm' } })).toMatchObject({ ok: false, code: 'conflict' });
    expect(rowsOf(book)).toEqual(rows);
  });

  it('is decided anew after a refusal, which leaves no line', () => {
    const { book, saleId, must } = openHall();
    const sell = { command: 'outcome.record', worker: 'Ada', station: 'block', at: AT, key: 'sell' } as const;
    const input = { saleId, lotNo: '1', kind: 'passed' } as const;
    expect(submit(book, { ...sell, input })).toMatchObject({ ok: false, code: 'unknown' });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
    expect(submit(book, { ...sell, input })).toMatchObject({ ok: true, repeated: false });
  });
});

describe('a refusal', () => {
  const file = tempFile();
  const { saleId, give, giveUntyped, must } = openHall({ file });
  must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
  must('outcome.record', { saleId, lotNo: '1', kind: 'passed' }, 'block');
  const bytes = () => [file, `${file}-wal`].map((name) => (existsSync(name) ? readFileSync(name, 'latin1') : ''));

  it.each([
    ['malformed', 'lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3,5' }],
    ['malformed', 'lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3', colour: 'red' }],
    ['unknown', 'lot.add', { saleId, sellerNo: 9, goods: 'raccoon', count: '3' }],
    ['unknown', 'lot.mend', { saleId }],
    ['already', 'outcome.record', { saleId, lotNo: '1', kind: 'passed' }],
    ['malformed', 'outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '1e3', buyerNo: 10 }],
    ['malformed', 'person.enrol', {}],
    ['malformed', 'person.enrol', null],
    ['malformed', 'person.enrol', [1]],
  ] as const)('leaves every byte of the file as it was: %s of %s %#', (code, command, input) => {
    const before = bytes();
    expect(giveUntyped(command, input)).toMatchObject({ ok: false, code });
    expect(bytes()).toEqual(before);
  });

  it('names every field that is wrong at once', () => {
    const answer = give('lot.add', { saleId, sellerNo: 0, goods: 'raccoon', count: 'x', minimum: '12,5' });
    if (answer.ok) throw new Error('accepted');
    const all = [answer, ...(answer.also ?? [])];
    expect(all.map(({ field }) => field).sort()).toEqual(['count', 'minimum', 'sellerNo']);
  });

  it('names the field that is not known', () => {
    expect(giveUntyped('person.enrol', { name: 'Dee', colour: 'red' })).toMatchObject({
      code: 'malformed',
      field: 'colour',
    });
  });
});

describe('a fault', () => {
  it('is thrown, with nothing written and the door still open', () => {
    const { book, saleId, give, must } = openHall();
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
    book.sqlite.exec("CREATE TRIGGER full BEFORE INSERT ON log BEGIN SELECT RAISE(ABORT, 'disk full'); END");
    const before = rowsOf(book);
    expect(() => give('outcome.record', { saleId, lotNo: '1', kind: 'passed' })).toThrow('disk full');
    expect(rowsOf(book)).toEqual(before);
    book.sqlite.exec('DROP TRIGGER full');
    expect(give('outcome.record', { saleId, lotNo: '1', kind: 'passed' })).toMatchObject({ ok: true });
  });
});

describe('the stations', () => {
  const { book } = openHall();

  it.each(allCommands().map((command) => [command.name, command] as const))('may give %s or may not', (_, command) => {
    for (const station of STATIONS) {
      const before = rowsOf(book);
      // No input fits every command: a station that may not is told so before the input is looked at.
      const answer = submitUntyped(book, {
        ...enrol('', 'none'),
        command: command.name,
        station,
        input: { none: true },
      });
      const code = command.stations.includes(station) ? 'malformed' : 'not_allowed';
      expect(answer).toMatchObject({ ok: false, code });
      expect(rowsOf(book)).toEqual(before);
    }
  });

  it('are named in the refusal', () => {
    const answer = submit(book, { ...enrol('Dee', 'none'), station: 'payout' });
    expect(answer).toMatchObject({ message: 'The payout station may not do this. Ask at: intake, till, office.' });
  });
});

describe('the commands', () => {
  it('have names of their own, a sentence, and take no field they do not know', () => {
    const names = allCommands().map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const { name, summary, input } of allCommands()) {
      expect(name).toMatch(/^[a-z]+\.[a-z]+$/);
      expect(summary).toMatch(/^[A-Z].*\.$/);
      const parsed = input.safeParse({ unheardOf: 1 });
      expect(parsed.error?.issues.some(({ code }) => code === 'unrecognized_keys')).toBe(true);
    }
  });

  // An asynchronous command would give the transaction back before it has written.
  it('cannot be asynchronous: the compiler refuses it', () => {
    const plain = { name: 'a.b', summary: 'A.', stations: ['office'], input: z.strictObject({}) } as const;
    const command = defineCommand({
      ...plain,
      // @ts-expect-error a promise is no result
      run: async () => accept(null),
    });
    expect(command.name).toBe('a.b');
  });
});

describe('eight processes that record the same lots', () => {
  it('have one winner a lot, and the others are told', async () => {
    const LOTS = 40;
    const RACERS = 8;
    const file = tempFile();
    const { saleId, must, book } = openHall({ file });
    for (let lot = 1; lot <= LOTS; lot += 1) must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '3' });
    const before = logHead(book).seq;
    book.close();

    const racers = Array.from({ length: RACERS }, (_, at) =>
      startScript('tests/support/racer.ts', [file, String(at + 1), String(LOTS), 'block']),
    );
    const ends = racers.map(endOf);
    await Promise.all(racers.map((racer) => racer.stdout && once(racer.stdout, 'data')));
    for (const racer of racers) racer.stdin?.write('go\n');
    const ended = await Promise.all(ends);

    expect(ended.map(({ code }) => code)).toEqual(Array(RACERS).fill(0));
    const told = ended.flatMap(({ output }) => output.split('\n').filter((line) => /^\d/.test(line)));
    expect(told.length).toBe(LOTS * RACERS);
    for (let lot = 1; lot <= LOTS; lot += 1) {
      const answers = told.filter((line) => line.startsWith(`${lot} `)).map((line) => line.split(' ')[1]);
      expect(answers.sort()).toEqual([...Array(RACERS - 1).fill('already'), 'won']);
    }
    const after = openBook(file);
    expect(checkChain(after.sqlite)).toMatchObject({ ok: true, head: { seq: before + LOTS } });
    after.close();
  });
});
