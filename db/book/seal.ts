/**
 * A file locked with a passphrase: a header, then its bytes in pieces, each under AES-256-GCM. Only Node's own crypto.
 * The header (61 bytes): `PELTRYLK`, the version 1, the cost of scrypt (ln, r, p: a byte each), the salt of the passphrase
 * (16), a salt of this file (16), and a sum that tells a wrong passphrase from a damaged file (16), then a 0.
 * HKDF-SHA-256 makes of the passphrase's key and the file's salt a key for this file alone. A piece is 64 KiB and its tag
 * of 16 bytes; its nonce is its number and whether it is the last (the STREAM construction of Hoang, Reyhanitabar, Rogaway
 * and Vizár, 2015), so that none can be left out, put elsewhere or cut off. The header is authenticated with each piece.
 */
import { createCipheriv, createDecipheriv, hkdfSync, randomBytes, timingSafeEqual } from 'node:crypto';
import { closeSync, fstatSync, openSync, readSync, writeSync } from 'node:fs';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { COST, type Cost, keyOfPassphrase } from './scrypt.ts';

/** A key with what is needed to make it again of the passphrase. */
export interface SealKey {
  readonly cost: Cost;
  readonly salt: Buffer;
  readonly key: Buffer;
}

const MAGIC = Buffer.from('PELTRYLK');
const VERSION = 1;
const SALT_BYTES = 16;
const HEADER_BYTES = 61;
const PIECE_BYTES = 64 * 1024;
const TAG_BYTES = 16;
/** A header that somebody made up must not make the program work for minutes or take all memory. */
const MOST_COST = { ln: 20, r: 16, p: 4 } as const;

export async function sealKeyOf(
  passphrase: string,
  salt = randomBytes(SALT_BYTES),
  cost: Cost = COST,
): Promise<SealKey> {
  return { cost, salt, key: await keyOfPassphrase(passphrase, salt, cost) };
}

interface Header {
  readonly bytes: Buffer;
  readonly cost: Cost;
  readonly salt: Buffer;
  readonly ofFile: Buffer;
  readonly check: Buffer;
}

/** The header of a locked file; null where the file is none, or of a version that is not known here. */
function headerOf(file: string): Header | null {
  const bytes = Buffer.alloc(HEADER_BYTES);
  const descriptor = openSync(file, 'r');
  try {
    if (fstatSync(descriptor).isDirectory() || readFull(descriptor, bytes, 0) < HEADER_BYTES) return null;
  } finally {
    closeSync(descriptor);
  }
  if (!bytes.subarray(0, 8).equals(MAGIC) || bytes[8] !== VERSION) return null;
  const [ln = 0, r = 0, p = 0] = bytes.subarray(9, 12);
  const [salt, ofFile, check] = [bytes.subarray(12, 28), bytes.subarray(28, 44), bytes.subarray(44, 60)];
  return { bytes, cost: { ln, r, p }, salt, ofFile, check };
}

export function isSealed(file: string): boolean {
  return headerOf(file) !== null;
}

function derived({ key }: SealKey, ofFile: Buffer, what: 'content' | 'check', bytes: number): Buffer {
  return Buffer.from(hkdfSync('sha256', key, ofFile, `peltry locked file 1 ${what}`, bytes));
}

/** The nonce of a piece: its number, and whether it is the last. */
function nonceOf(piece: number, last: boolean): Buffer {
  const nonce = Buffer.alloc(12);
  nonce.writeUIntBE(piece, 5, 6);
  nonce[11] = last ? 1 : 0;
  return nonce;
}

/** Locks `from` into a new file `to`. Throws where the disk fails. */
export function sealFile(from: string, to: string, sealKey: SealKey): void {
  const { cost, salt } = sealKey;
  const ofFile = randomBytes(SALT_BYTES);
  const begin = Buffer.concat([MAGIC, Buffer.from([VERSION, cost.ln, cost.r, cost.p]), salt, ofFile]);
  const header = Buffer.concat([begin, derived(sealKey, ofFile, 'check', 16), Buffer.from([0])]);
  const key = derived(sealKey, ofFile, 'content', 32);
  const [input, output] = [openSync(from, 'r'), openSync(to, 'wx')];
  try {
    writeFull(output, header);
    const pieces = Math.max(1, Math.ceil(fstatSync(input).size / PIECE_BYTES));
    for (let piece = 0; piece < pieces; piece += 1) {
      const plain = Buffer.alloc(PIECE_BYTES);
      const read = readFull(input, plain, piece * PIECE_BYTES);
      const cipher = createCipheriv('aes-256-gcm', key, nonceOf(piece, piece === pieces - 1)).setAAD(header);
      const hidden = Buffer.concat([cipher.update(plain.subarray(0, read)), cipher.final()]);
      writeFull(output, Buffer.concat([hidden, cipher.getAuthTag()]));
    }
  } finally {
    closeSync(input);
    closeSync(output);
  }
}

/**
 * Gives the bytes of a locked file piece by piece, each proved before it is given: refused with `not_allowed` where the
 * key is another, with `malformed` where a bit of the file is not as it was written.
 */
export function unseal(file: string, sealKey: SealKey, take: (plain: Buffer) => void): Result<null> {
  const header = headerOf(file);
  if (!header) return refuse('malformed', `${file} is no locked backup.`);
  if (!fits(header, sealKey)) return refuse('not_allowed', `This passphrase does not open ${file}.`);
  const key = derived(sealKey, header.ofFile, 'content', 32);
  const input = openSync(file, 'r');
  try {
    const size = fstatSync(input).size - HEADER_BYTES;
    const pieces = Math.max(1, Math.ceil(size / (PIECE_BYTES + TAG_BYTES)));
    for (let piece = 0; piece < pieces; piece += 1) {
      const hidden = Buffer.alloc(PIECE_BYTES + TAG_BYTES);
      const read = readFull(input, hidden, HEADER_BYTES + piece * hidden.length);
      const nonce = nonceOf(piece, piece === pieces - 1);
      const plain = read < TAG_BYTES ? null : opened(hidden.subarray(0, read), { key, nonce, header: header.bytes });
      if (!plain) return refuse('malformed', `${file} is damaged: it is not as it was written. Use another backup.`);
      take(plain);
    }
    return accept(null);
  } finally {
    closeSync(input);
  }
}

/** The same into a new file, which is left unfinished where it is refused. */
export function unsealTo(file: string, to: string, sealKey: SealKey): Result<null> {
  const output = openSync(to, 'wx');
  try {
    return unseal(file, sealKey, (plain) => writeFull(output, plain));
  } finally {
    closeSync(output);
  }
}

/** The key of a locked file by its passphrase; refused in a sentence where it is another passphrase. */
export async function keyFor(file: string, passphrase: string): Promise<Result<SealKey>> {
  const header = headerOf(file);
  const ok = header && (['ln', 'r', 'p'] as const).every((part) => header.cost[part] <= MOST_COST[part]);
  if (!ok || header.cost.ln < 1) return refuse('malformed', `${file} is no locked backup that can be opened.`);
  const sealKey = await sealKeyOf(passphrase, Buffer.from(header.salt), header.cost);
  if (fits(header, sealKey)) return accept(sealKey);
  return refuse(
    'not_allowed',
    `This passphrase does not open ${file}. Look at capital letters and spaces, and try again. Nobody can open it without.`,
  );
}

/** The first of the keys that opens the file. */
export function fitting(file: string, keys: readonly SealKey[]): SealKey | undefined {
  const header = headerOf(file);
  return header ? keys.find((key) => fits(header, key)) : undefined;
}

function fits({ salt, ofFile, check }: Header, sealKey: SealKey): boolean {
  return salt.equals(sealKey.salt) && timingSafeEqual(check, derived(sealKey, ofFile, 'check', 16));
}

interface Piece {
  readonly key: Buffer;
  readonly nonce: Buffer;
  readonly header: Buffer;
}

function opened(hidden: Buffer, { key, nonce, header }: Piece): Buffer | null {
  const decipher = createDecipheriv('aes-256-gcm', key, nonce, { authTagLength: TAG_BYTES }).setAAD(header);
  decipher.setAuthTag(hidden.subarray(-TAG_BYTES));
  const plain = decipher.update(hidden.subarray(0, -TAG_BYTES));
  try {
    return Buffer.concat([plain, decipher.final()]);
  } catch {
    return null;
  }
}

/** How many bytes were there, up to the length of the buffer. */
function readFull(descriptor: number, into: Buffer, from: number): number {
  let done = 0;
  for (let read = -1; read !== 0 && done < into.length; done += read)
    read = readSync(descriptor, into, done, into.length - done, from + done);
  return done;
}

function writeFull(descriptor: number, bytes: Buffer): void {
  for (let done = 0; done < bytes.length; ) done += writeSync(descriptor, bytes, done);
}
