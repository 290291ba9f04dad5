/** Reads the words behind the command: what to do, about which book, folder or file. */
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type { Given, Subcommand } from './io.ts';
import { SUBCOMMANDS } from './subcommands.ts';

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
  if (subcommand.takes !== '' && !path) throw new NotUnderstood(`Say which: ${name} ${subcommand.takes}.`);
  const extra = subcommand.takes === '' ? path : more[0];
  if (extra !== undefined) throw new NotUnderstood(`There is one word too many: ${extra}.`);
  if (values.sale !== undefined && !subcommand.takesSale) throw new NotUnderstood(`${name} takes no --sale.`);
  const about = subcommand.takes === '<address>' ? addressOf(path ?? '') : path ? resolve(base, path) : '';
  const given = { book: resolve(base, values.book), path: about, sale: values.sale };
  return { subcommand, given };
}

function addressOf(word: string): string {
  if (/^https?:\/\/[^/]+/.test(word)) return word;
  throw new NotUnderstood(`${word} is not an address: write it like http://192.168.1.10:3000.`);
}

function parsed(words: readonly string[]) {
  try {
    const options = { book: { type: 'string' }, sale: { type: 'string' } } as const;
    return parseArgs({ args: [...words], options, allowPositionals: true, strict: true });
  } catch (fault) {
    if (fault instanceof TypeError) throw new NotUnderstood(fault.message);
    throw fault;
  }
}
