/** The command line of the book: `npm run --silent book -- <what> --book <file>`. */
import { NotUnderstood, readArguments } from './cli/arguments.ts';
import type { ExitCode, Voice } from './cli/io.ts';
import { USAGE } from './cli/subcommands.ts';
import { NotAFolder } from './exchange/read-folder.ts';
import { CannotOpenBook } from './faults.ts';

const voice: Voice = {
  say: (line) => void process.stdout.write(`${line}\n`),
  warn: (line) => void process.stderr.write(`${line}\n`),
};

/** npm starts a script in the project's folder: paths mean those of the folder in which the person stands. */
function whereThePersonStands(): string {
  const { npm_lifecycle_event: script, INIT_CWD: folder } = process.env;
  return script === 'book' && folder ? folder : process.cwd();
}

async function main(words: readonly string[]): Promise<ExitCode> {
  if (words.includes('--help')) {
    voice.say(USAGE);
    return 0;
  }
  try {
    const { subcommand, given } = readArguments(words, whereThePersonStands());
    return await subcommand.run(given, voice);
  } catch (fault) {
    return explain(fault);
  }
}

function explain(fault: unknown): ExitCode {
  if (fault instanceof NotUnderstood) {
    voice.warn(`${fault.message}\n\n${USAGE}`);
    return 2;
  }
  if (fault instanceof CannotOpenBook || fault instanceof NotAFolder) voice.warn(fault.message);
  else
    voice.warn(`This failed unexpectedly: ${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}`);
  return 1;
}

process.exitCode = await main(process.argv.slice(2));
