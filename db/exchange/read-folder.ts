/** Reads the files of an exchange folder as text: the first of the layers an import goes through. */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { recordOf } from '#lib/field/fields.ts';
import { refuse } from '#lib/result/result.ts';
import { decode, NOT_UTF8, REPLACEMENT } from './csv.ts';
import { OUT_FILES } from './export-sale.ts';
import { type Problem, problemList, type RawFolder, type Report } from './problem.ts';
import { readTable } from './read-table.ts';
import { exchangeTable, SALE_FILE, TABLE_NAMES, TABLES } from './tables.ts';

export interface FolderRead {
  readonly raw: RawFolder;
  readonly problems: readonly Problem[];
  /** Files of the folder that look as if they were meant, but are not part of the exchange. */
  readonly ignored: readonly string[];
}

export class NotAFolder extends Error {}

/** @throws NotAFolder where there is no folder at the path. */
export function readFolder(folder: string): FolderRead {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    throw new NotAFolder(`There is no folder ${folder}: check the path.`);
  }
  const { problems, report } = problemList();
  const bytesOf = (file: string) => (existsSync(join(folder, file)) ? readFileSync(join(folder, file)) : null);
  const sale = readSaleFile(bytesOf(SALE_FILE), report);
  const tables = recordOf(TABLE_NAMES, (name) => readTable(exchangeTable(name), bytesOf(TABLES[name].file), report));
  return { raw: { ...sale, tables }, problems, ignored: ignoredIn(folder) };
}

function ignoredIn(folder: string): string[] {
  const known = new Set<string>([SALE_FILE, ...TABLE_NAMES.map((name) => TABLES[name].file), ...OUT_FILES]);
  return readdirSync(folder).filter((file) => /\.(csv|json)$/i.test(file) && !known.has(file));
}

type SaleFile = Pick<RawFolder, 'sale' | 'saleLines'>;

const UNREAD: SaleFile = { sale: undefined, saleLines: new Map() };

/** `bytes` is null where the folder has no such file. */
function readSaleFile(bytes: Uint8Array | null, report: Report): SaleFile {
  const tell = (line: number, column: string, refusal: Parameters<Report>[1]) =>
    report({ file: SALE_FILE, line, column }, refusal);
  if (bytes === null) {
    tell(1, '-', refuse('missing', 'Add this file: an exchange folder must have it.'));
    return UNREAD;
  }
  const decoded = decode(bytes, (refusal) => tell(1, '-', refusal));
  if (decoded === null) return UNREAD;
  const { text, damaged } = decoded;
  if (damaged) tell(lineAt(text, text.indexOf(REPLACEMENT)), '-', NOT_UTF8);
  const { lines, doubled, brokenAt } = jsonLines(text);
  if (brokenAt !== null) {
    tell(brokenAt, '-', refuse('malformed', 'Correct this line: the file is not JSON from here on.'));
    return UNREAD;
  }
  for (const { path, line } of doubled) tell(line, path, refuse('taken', `Delete one: “${path}” is there twice.`));
  return { sale: JSON.parse(text) as unknown, saleLines: lines };
}

function lineAt(text: string, at: number): number {
  return text.slice(0, at).split('\n').length;
}

export interface JsonLines {
  /** The line of each key by its dotted path; of a key that is there twice, the first. */
  readonly lines: ReadonlyMap<string, number>;
  readonly doubled: readonly { readonly path: string; readonly line: number }[];
  /** The line on which the text stops being JSON (RFC 8259), or null. */
  readonly brokenAt: number | null;
}

const SPACE = /[ \t\r\n]*/y;
const STRING = /"(?:[^"\\\p{Cc}]|[\u007f-\u009f]|\\(?:["\\/bfnrt]|u[\da-fA-F]{4}))*"/uy;
const SCALAR = /true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;

class NotJson extends Error {}

export function jsonLines(text: string): JsonLines {
  const walk = new Walk(text);
  try {
    walk.value([]);
    walk.end();
    return { ...walk, brokenAt: null };
  } catch (fault) {
    if (!(fault instanceof NotJson)) throw fault;
    return { ...walk, brokenAt: walk.line() };
  }
}

class Walk {
  readonly lines = new Map<string, number>();
  readonly doubled: { path: string; line: number }[] = [];
  readonly #text: string;
  #at = 0;

  constructor(text: string) {
    this.#text = text;
  }

  line(): number {
    return lineAt(this.#text, this.#at);
  }

  value(path: readonly string[]): void {
    this.#take(SPACE);
    if (this.#is('{')) this.#members(path);
    else if (this.#is('[')) this.#items(path);
    else if (this.#take(STRING) === null && this.#take(SCALAR) === null) throw new NotJson();
    this.#take(SPACE);
  }

  end(): void {
    if (this.#at < this.#text.length) throw new NotJson();
  }

  #members(path: readonly string[]): void {
    this.#take(SPACE);
    if (this.#is('}')) return;
    do {
      this.#take(SPACE);
      const line = this.line();
      const key = this.#take(STRING);
      if (key === null) throw new NotJson();
      const own = [...path, JSON.parse(key) as string];
      this.#keep(own.join('.'), line);
      this.#take(SPACE);
      if (!this.#is(':')) throw new NotJson();
      this.value(own);
    } while (this.#is(','));
    if (!this.#is('}')) throw new NotJson();
  }

  #items(path: readonly string[]): void {
    this.#take(SPACE);
    if (this.#is(']')) return;
    let index = 0;
    do {
      this.value([...path, String(index)]);
      index += 1;
    } while (this.#is(','));
    if (!this.#is(']')) throw new NotJson();
  }

  #keep(path: string, line: number): void {
    if (this.lines.has(path)) this.doubled.push({ path, line });
    else this.lines.set(path, line);
  }

  #is(mark: string): boolean {
    if (this.#text[this.#at] !== mark) return false;
    this.#at += 1;
    return true;
  }

  #take(pattern: RegExp): string | null {
    pattern.lastIndex = this.#at;
    const found = pattern.exec(this.#text);
    if (found === null) return null;
    this.#at = pattern.lastIndex;
    return found[0];
  }
}
