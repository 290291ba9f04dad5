/** The command line of the book: `npm run --silent book -- <what> --book <file>`. */
import type { Voice } from './cli/io.ts';
import { commandLine } from './cli/main.ts';

const voice: Voice = {
  say: (line) => void process.stdout.write(`${line}\n`),
  warn: (line) => void process.stderr.write(`${line}\n`),
};

process.exitCode = await commandLine(process.argv.slice(2), voice);
