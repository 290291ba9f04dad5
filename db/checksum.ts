/** The sum that stands beside a backup, in the form that sha256sum writes and checks. */
import { existsSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { accept, type Result, refuse } from '#lib/result.ts';

export function checksumFile(file: string): string {
  return `${file}.sha256`;
}

export function checksumLine(sha256: string, file: string): string {
  return `${sha256}  ${basename(file)}\n`;
}

/** The sum that stands beside a file, or null where none does. */
export function checksumBeside(file: string): Result<string | null> {
  const beside = checksumFile(file);
  if (!existsSync(beside)) return accept(null);
  const sum = /^([0-9a-f]{64}) [ *]/i.exec(readFileSync(beside, 'utf8'))?.[1];
  if (sum !== undefined) return accept(sum.toLowerCase());
  return refuse(
    'malformed',
    `${beside} holds no SHA-256. Use another backup, or move this file away to go on without.`,
  );
}
