/** Everything the command line does, in the order in which the usage lists it. */
import { backup } from './backup.ts';
import { certificateCommand } from './certificate.ts';
import { exportCommand } from './export.ts';
import { followCommand } from './follow.ts';
import { followKeyCommand } from './follow-key.ts';
import { importCommand } from './import.ts';
import { importPrices, replacePrices } from './import-prices.ts';
import { init } from './init.ts';
import type { Subcommand } from './io.ts';
import { keep } from './keep.ts';
import { restore } from './restore.ts';
import { verify } from './verify.ts';

export const SUBCOMMANDS: readonly Subcommand[] = [
  init,
  importCommand,
  importPrices,
  replacePrices,
  exportCommand,
  verify,
  backup,
  keep,
  restore,
  followKeyCommand,
  followCommand,
  certificateCommand,
];

export const USAGE = [
  'Usage: npm run --silent book -- <what> --book <file>',
  '',
  ...SUBCOMMANDS.map(({ name, takes, takesSale, says }) => {
    const form = [name, takes, takesSale ? '[--sale <name or id>]' : ''].filter((part) => part !== '').join(' ');
    return `  ${form.padEnd(38)}${says}`;
  }),
  '',
  'Exit code: 0 well; 1 something is wrong, and the book is as it was; 2 the command was not understood.',
].join('\n');
