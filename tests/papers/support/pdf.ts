/** Reads a PDF back with programs that are not ours: poppler's pdftotext and pdfinfo, and qpdf. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { tempFile } from '#tests/support/temp.ts';

export interface ReadBack {
  readonly file: string;
  /** The text of each page, as it stands on it. */
  readonly pages: readonly string[];
  /** All of it with every run of blanks as one. */
  readonly text: string;
}

// A missing program is a failure like any other: execFileSync throws ENOENT, which names it.
function run(program: string, args: readonly string[]): string {
  return execFileSync(program, args, { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });
}

export function oneSpaced(text: string): string {
  return text.normalize('NFC').replace(/\s+/g, ' ');
}

export function readBack(bytes: Uint8Array): ReadBack {
  const file = tempFile('paper.pdf');
  writeFileSync(file, bytes);
  // Each page ends in a form feed.
  const pages = run('pdftotext', ['-layout', file, '-']).split('\f').slice(0, -1);
  return { file, pages, text: oneSpaced(pages.join(' ')) };
}

/** Width and height of every page, in points. */
export function pageSizes({ file, pages }: ReadBack): string[] {
  const info = run('pdfinfo', ['-f', '1', '-l', String(pages.length), file]);
  return [...info.matchAll(/^Page +\d+ size: +([\d.]+ x [\d.]+) pts/gm)].map(([, size]) => size ?? '');
}

/** What qpdf has to say of the file; it ends with an error, and so do we, where something is wrong. */
export function checked({ file }: ReadBack): string {
  return run('qpdf', ['--check', file]);
}

/** The fonts as pdffonts lists them: name, and whether it is embedded and carries its Unicode. */
export function fonts({ file }: ReadBack): { name: string; embedded: boolean; unicode: boolean }[] {
  const [, , ...rows] = run('pdffonts', [file]).trimEnd().split('\n');
  return rows.map((row) => {
    const flags = row.trimEnd().split(/\s+/).slice(-5, -2);
    return { name: row.split(' ')[0] ?? '', embedded: flags[0] === 'yes', unicode: flags[2] === 'yes' };
  });
}
