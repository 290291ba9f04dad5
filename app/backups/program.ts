import 'server-only';
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { programFile } from '../server/programs.mjs';

export interface ProgramEnded {
  readonly code: number;
  readonly said: string;
  readonly warned: string;
}

/**
 * Runs the command line of the book as a process of its own: copying and proving a book take seconds of a core, and
 * the Block must not wait for them.
 */
export async function bookProgram(words: readonly string[]): Promise<ProgramEnded> {
  // The server's own settings are not the program's: it would take the person's folder from npm's.
  const { npm_lifecycle_event: _, ...env } = process.env;
  const child = spawn(process.execPath, [programFile('cli'), ...words], { env, stdio: ['ignore', 'pipe', 'pipe'] });
  const output = { said: '', warned: '' };
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    output.said += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    output.warned += text;
  });
  const [code] = (await once(child, 'close')) as [number | null];
  return { code: code ?? 1, said: output.said.trim(), warned: output.warned.trim() };
}
