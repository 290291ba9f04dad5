/** The command line of the book: `npm run --silent book -- <what> --book <file>`. */

import { commandLine } from '#db/cli/main.ts';
import type { Voice } from '#db/cli/subcommand.ts';

const voice: Voice = {
  say: (line) => void process.stdout.write(`${line}\n`),
  warn: (line) => void process.stderr.write(`${line}\n`),
};

process.exitCode = await commandLine(process.argv.slice(2), voice);
