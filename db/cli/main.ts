import { NotAFolder } from '../exchange/read-folder.ts';
import { CannotOpenBook } from '../faults.ts';
import { NotUnderstood, readArguments } from './arguments.ts';
import type { ExitCode, Voice } from './io.ts';
import { USAGE } from './subcommands.ts';

/** npm starts a script in the project's folder: paths mean those of the folder in which the person stands. */
function whereThePersonStands(): string {
  const { npm_lifecycle_event: script, INIT_CWD: folder } = process.env;
  return script === 'book' && folder ? folder : process.cwd();
}

/** Takes the words behind `npm run --silent book --`, says what there is to say with `voice`, and gives the exit code. */
export async function commandLine(words: readonly string[], voice: Voice): Promise<ExitCode> {
  if (words.includes('--help')) {
    voice.say(USAGE);
    return 0;
  }
  try {
    const { subcommand, given } = readArguments(words, whereThePersonStands());
    return await subcommand.run(given, voice);
  } catch (fault) {
    return explain(fault, voice);
  }
}

function explain(fault: unknown, voice: Voice): ExitCode {
  if (fault instanceof NotUnderstood) {
    voice.warn(`${fault.message}\n\n${USAGE}`);
    return 2;
  }
  if (fault instanceof CannotOpenBook || fault instanceof NotAFolder) voice.warn(fault.message);
  else
    voice.warn(`This failed unexpectedly: ${fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)}`);
  return 1;
}
