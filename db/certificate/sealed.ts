/** The authority with its key as it lies beside backups: sealed by six words that the association keeps on paper. */
import { createCipheriv, createDecipheriv, randomBytes, scryptSync } from 'node:crypto';
import { chmodSync, copyFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import * as z from 'zod';
import { writeToDisk } from '#db/book/files.ts';
import { WORDS_COMPARED, wordsOfBytes, wordsTyped } from '#lib/network/words.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { type Keys, keysOf } from './keep.ts';
import { certificateFolder } from './names.ts';

const sealedText = z.strictObject({
  ...{ cert: z.string().max(8000), salt: z.string().max(64), iv: z.string().max(64) },
  ...{ tag: z.string().max(64), key: z.string().max(16_000) },
});

/** 64 MB and a fifth of a second for each try: 48 bits of words last. */
const COST = { N: 2 ** 16, r: 8, p: 1, maxmem: 2 ** 27 };
const KEY_BYTES = 32;
const keyOf = (words: string, salt: Buffer) => scryptSync(`peltry recovery ${words}`, salt, KEY_BYTES, COST);

const wordsFile = (bookFile: string) => join(certificateFolder(bookFile), 'recovery.words');
const sealedFile = (bookFile: string) => join(certificateFolder(bookFile), 'authority.sealed');

/** The words of this association, which go from laptop to laptop with the authority; empty where there is none yet. */
export function recoveryWords(bookFile: string): string {
  if (!existsSync(certificateFolder(bookFile))) return '';
  const file = wordsFile(bookFile);
  if (!existsSync(file)) noteRecoveryWords(bookFile, wordsOfBytes(randomBytes(WORDS_COMPARED)));
  return readFileSync(file, 'utf8').trim();
}

export function noteRecoveryWords(bookFile: string, words: string): void {
  mkdirSync(certificateFolder(bookFile), { recursive: true, mode: 0o700 });
  writeToDisk(wordsFile(bookFile), `${words}\n`);
  chmodSync(wordsFile(bookFile), 0o600);
}

/** Such as `lantern.authority`, beside `lantern-20260228T140509123Z.book`. */
function besideCopies(folder: string, copy: string): string {
  return join(folder, `${basename(copy).replace(/(-\d{8}T\d{9}Z)?(\.book)?$/, '')}.authority`);
}

/** Puts the sealed authority beside the copies of a book; nothing where the book has none. Throws where the disk fails. */
export function keepSealed(bookFile: string, folder: string): void {
  const keys = keysOf(bookFile, 'authority');
  if (!keys) return;
  const file = sealedFile(bookFile);
  // Sealing is slow on purpose: once for each authority.
  if (certOf(file) !== keys.cert) writeToDisk(file, seal(keys, recoveryWords(bookFile)));
  const goal = besideCopies(folder, bookFile);
  if (certOf(goal) !== keys.cert) copyFileSync(file, goal);
}

function seal({ cert, key }: Keys, words: string): string {
  const [salt, iv] = [randomBytes(16), randomBytes(12)];
  const cipher = createCipheriv('aes-256-gcm', keyOf(words, salt), iv);
  const hidden = Buffer.concat([cipher.update(key, 'utf8'), cipher.final()]);
  const all = { salt, iv, tag: cipher.getAuthTag(), key: hidden };
  const texts = Object.entries(all).map(([name, bytes]) => [name, bytes.toString('base64')]);
  return `${JSON.stringify({ cert, ...Object.fromEntries(texts) })}\n`;
}

function readSealed(file: string): z.output<typeof sealedText> | undefined {
  try {
    return sealedText.parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch {
    return undefined;
  }
}
const certOf = (file: string) => (existsSync(file) ? readSealed(file)?.cert : undefined);

/** Whether a sealed authority lies beside this backup. */
export const isSealedBeside = (backup: string): boolean => existsSync(besideCopies(dirname(backup), backup));

/** Opens the authority that lies beside a backup; refused where none does, or by other words. */
export function openSealed(backup: string, typed: string): Result<Keys & { readonly words: string }> {
  const file = besideCopies(dirname(backup), backup);
  if (!existsSync(file))
    return refuse('missing', `No sealed authority lies beside ${backup}: restore without --words.`);
  const sealed = readSealed(file);
  if (!sealed) return refuse('malformed', `${file} cannot be read: take it from another stick.`);
  const words = wordsTyped(typed);
  const bytes = (text: string) => Buffer.from(text, 'base64');
  try {
    const open = createDecipheriv('aes-256-gcm', keyOf(words, bytes(sealed.salt)), bytes(sealed.iv));
    open.setAuthTag(bytes(sealed.tag));
    const key = `${open.update(bytes(sealed.key)).toString()}${open.final().toString()}`;
    return accept({ cert: sealed.cert, key, words });
  } catch {
    return refuse(
      'not_allowed',
      'These are not the recovery words: read all six again from the paper, hyphens between.',
    );
  }
}
