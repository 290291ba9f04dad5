import { existsSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { keepCopy } from '#db/book/keep-copy.ts';
import { openBook } from '#db/book/open.ts';
import { keepCertificate, keysOf } from '#db/certificate/keep.ts';
import { certificateFolder } from '#db/certificate/names.ts';
import { keepSealed, openSealed, recoveryWords } from '#db/certificate/sealed.ts';
import { openHall } from '#tests/support/hall.ts';
import { cli } from '#tests/support/process.ts';
import { tempFolder } from '#tests/support/temp.ts';

/** A book with its authority, and one backup of it on a stick. */
const [home, stick] = [tempFolder(), tempFolder()];
const file = join(home, 'lantern.book');
const NOW = new Date('2026-02-28T14:05:09.123Z');
const backup = join(stick, 'lantern-20260228T140509123Z.book');
let words: string;

beforeAll(async () => {
  openHall({ file }).book.close();
  expect(recoveryWords(file)).toBe('');
  const book = openBook(file);
  expect(await keepCertificate(book, new Date())).toMatchObject({ ok: true });
  book.close();
  words = recoveryWords(file);
  expect(await keepCopy(file, stick, NOW)).toMatchObject({ ok: true, file: backup });
});

const sealed = join(stick, 'lantern.authority');

describe('the authority beside a backup', () => {
  it('is opened by six words, however they are typed, and by no others', () => {
    expect(words).toMatch(/^([a-z]+ ){5}[a-z]+$/);
    const opened = openSealed(backup, ` ${words.toUpperCase().replaceAll(' ', '-')} `);
    expect(opened).toEqual({ ok: true, value: { ...keysOf(file, 'authority'), words } });
    const other = words.replace(/^[a-z]+/, words.startsWith('acorn') ? 'amber' : 'acorn');
    expect(openSealed(backup, other)).toMatchObject({ ok: false, code: 'not_allowed' });
    expect(openSealed(join(home, 'none.book'), words)).toMatchObject({ ok: false, code: 'missing' });
  });

  it('holds no key in the clear, stays the same with each backup, and its words are for one account only', () => {
    const text = readFileSync(sealed, 'utf8');
    expect(text).not.toContain('PRIVATE KEY');
    expect(text).not.toContain(words.split(' ')[0]);
    keepSealed(file, stick);
    expect(readFileSync(sealed, 'utf8')).toBe(text);
    expect((statSync(join(certificateFolder(file), 'recovery.words')).mode & 0o777).toString(8)).toBe('600');
  });

  it('that is damaged is said', () => {
    const whole = readFileSync(sealed, 'utf8');
    writeFileSync(sealed, whole.slice(0, 40));
    expect(openSealed(backup, words)).toMatchObject({ ok: false, code: 'malformed' });
    writeFileSync(sealed, whole);
  });
});

describe('restore', () => {
  const at = (name: string) => join(home, name);

  it('asks for the words before it makes anything, and refuses wrong ones', async () => {
    const asked = await cli('restore', backup, '--book', at('third.book'));
    expect([asked.code, existsSync(at('third.book'))]).toEqual([1, false]);
    expect(asked.err).toContain('--words');
    const wrong = await cli('restore', backup, '--words', 'a-b-c-d-e-f', '--book', at('third.book'));
    expect([wrong.code, existsSync(at('third.book'))]).toEqual([1, false]);
    expect(wrong.err).toContain('not the recovery words');
  });

  it('brings authority and words along, so that devices trust the third laptop and the paper stays good', async () => {
    const done = await cli('restore', backup, '--words', words.replaceAll(' ', '-'), '--book', at('third.book'));
    expect(done.code, done.err).toBe(0);
    expect(done.out).toContain('devices that trust the one trust this one too');
    expect(keysOf(at('third.book'), 'authority')).toEqual(keysOf(file, 'authority'));
    expect(recoveryWords(at('third.book'))).toBe(words);
  });

  it('goes without where that is said, and where none lies there', async () => {
    const without = await cli('restore', backup, '--words', 'none', '--book', at('fourth.book'));
    expect([without.code, without.out.includes('joins anew')]).toEqual([0, true]);
    expect(keysOf(at('fourth.book'), 'authority')).toBeNull();
    renameSync(sealed, `${sealed}.away`);
    expect((await cli('restore', backup, '--book', at('fifth.book'))).code).toBe(0);
    rmSync(at('fifth.book'));
  });
});
