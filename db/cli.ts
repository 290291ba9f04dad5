/** The command line of the book: `npm run --silent book -- <what> --book <file>`. */

import { PRIVATE_UMASK } from '#db/book/private-files.ts';
import { commandLine } from '#db/cli/main.ts';
import type { Voice } from '#db/cli/subcommand.ts';

// What is written here holds people's names: it is for this account alone.
process.umask(PRIVATE_UMASK);

const voice: Voice = {
  say: (line) => void process.stdout.write(`${line}\n`),
  warn: (line) => void process.stderr.write(`${line}\n`),
};

process.exitCode = await commandLine(process.argv.slice(2), voice);
