/** Where in a JSON text each key stands, so that a mistake can be told with its line. */

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
    return this.#text.slice(0, this.#at).split('\n').length;
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
