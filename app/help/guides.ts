import 'server-only';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

// The server is started in the folder of the program, where the guides lie: so they can be read without internet.
const FOLDER = join(process.cwd(), 'docs');

/** The names of the guides, such as `block`. */
export function guideNames(): readonly string[] {
  return readdirSync(FOLDER).flatMap((file) => (file.endsWith('.md') ? [file.slice(0, -'.md'.length)] : []));
}

/** The text of a guide, or undefined where there is none of this name. */
export function guideText(name: string): string | undefined {
  return guideNames().includes(name) ? readFileSync(join(FOLDER, `${name}.md`), 'utf8') : undefined;
}

/** The bytes of a picture of the guides, or undefined where there is none of this name. */
export function guidePicture(file: string): Uint8Array<ArrayBuffer> | undefined {
  const folder = join(FOLDER, 'pictures');
  return readdirSync(folder).includes(file) ? new Uint8Array(readFileSync(join(folder, file))) : undefined;
}

/** What a guide calls itself. */
export function titleOf(text: string): string {
  return /^# (.+)$/m.exec(text)?.[1] ?? 'Guide';
}
