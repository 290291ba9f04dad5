/** The command line: reads its words, runs one subcommand, and explains what failed. */
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { CannotOpenBook } from '#db/book/files.ts';
import { NotAFolder } from '#db/exchange/read-folder.ts';
import { type PrintedHead, readHead } from '#db/verify/heads.ts';
import { backup, init, keep, lock, restore, unlock, verify } from './book.ts';
import { exportCommand, importCommand, importPrices, replacePrices } from './exchange.ts';
import { certificateCommand, codeCommand, followCommand, leftOutCommand, takeOverCommand } from './network.ts';
import type { ExitCode, Given, Subcommand, Voice } from './subcommand.ts';

/** In the order in which the usage lists them. */
const SUBCOMMANDS: readonly Subcommand[] = [
  init,
  importCommand,
  importPrices,
  replacePrices,
  exportCommand,
  verify,
  backup,
  keep,
  restore,
  lock,
  unlock,
  followCommand,
  takeOverCommand,
  leftOutCommand,
  certificateCommand,
  codeCommand,
];

const USAGE = [
  'Usage: npm run --silent book -- <what> --book <file>',
  '',
  ...SUBCOMMANDS.map(({ name, takes = '', takesSale, takesHead, takesCode, takesWords, takesHall, says }) => {
    const form = [
      ...[name, takes, takesSale ? '[--sale <name or id>]' : ''],
      ...[
        takesHead ? '[--head <line>:<hash>]' : '',
        takesCode ? '[--code <code>]' : '',
        takesWords ? '[--words <words>]' : '',
        takesHall ? '[--hall]' : '',
      ],
    ]
      .filter((part) => part !== '')
      .join(' ');
    return `  ${form.padEnd(38)}${says}`;
  }),
  '',
  'Exit code: 0 well; 1 something is wrong, and the book is as it was; 2 the command was not understood.',
].join('\n');

export class NotUnderstood extends Error {}

export interface Understood {
  readonly subcommand: Subcommand;
  readonly given: Given;
}

/** `base` is the folder that relative paths start from. @throws NotUnderstood with a sentence that says what is amiss. */
export function readArguments(words: readonly string[], base: string): Understood {
  const { values, positionals } = parsed(words);
  const [name, path, ...more] = positionals;
  const subcommand = SUBCOMMANDS.find((one) => one.name === name);
  if (name === undefined) throw new NotUnderstood('Say what to do.');
  if (subcommand === undefined) throw new NotUnderstood(`There is no “${name}”.`);
  if (values.book === undefined || values.book === '') throw new NotUnderstood('Say which book: --book <file>.');
  if (subcommand.takes && !path) throw new NotUnderstood(`Say which: ${name} ${subcommand.takes}.`);
  const extra = subcommand.takes ? more[0] : path;
  if (extra !== undefined) throw new NotUnderstood(`There is one word too many: ${extra}.`);
  if (values.sale !== undefined && !subcommand.takesSale) throw new NotUnderstood(`${name} takes no --sale.`);
  const heads = values.head ?? [];
  if (heads.length > 0 && !subcommand.takesHead) throw new NotUnderstood(`${name} takes no --head.`);
  if (values.code !== undefined && !subcommand.takesCode) throw new NotUnderstood(`${name} takes no --code.`);
  if (values.words !== undefined && !subcommand.takesWords) throw new NotUnderstood(`${name} takes no --words.`);
  if (values.hall && !subcommand.takesHall) throw new NotUnderstood(`${name} takes no --hall.`);
  const about = aboutOf(subcommand, path ?? '', base);
  const given = {
    book: resolve(base, values.book),
    path: about,
    sale: values.sale,
    heads: heads.map(headOf),
    code: values.code,
    words: values.words,
    hall: values.hall === true,
  };
  return { subcommand, given };
}

function headOf(text: string): PrintedHead {
  const head = readHead(text, '--head');
  if (head) return head;
  throw new NotUnderstood(`--head ${text} is not a line and its hash: write it like 1234:89abcdef01234567890a.`);
}

function aboutOf({ takes }: Subcommand, word: string, base: string): string {
  if (takes === '<address>') return addressOf(word);
  return takes === '<name>' || word === '' ? word : resolve(base, word);
}

function addressOf(word: string): string {
  if (/^https?:\/\/[^/]+/.test(word)) return word;
  throw new NotUnderstood(`${word} is not an address: write it like https://192.168.1.10:3443.`);
}

function parsed(words: readonly string[]) {
  try {
    const options = {
      book: { type: 'string' },
      sale: { type: 'string' },
      code: { type: 'string' },
      words: { type: 'string' },
      hall: { type: 'boolean' },
      head: { type: 'string', multiple: true },
    } as const;
    return parseArgs({ args: [...words], options, allowPositionals: true, strict: true });
  } catch (fault) {
    if (fault instanceof TypeError) throw new NotUnderstood(fault.message);
    throw fault;
  }
}

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
