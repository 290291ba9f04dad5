import { readdirSync, readFileSync } from 'node:fs';
import { join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's folder, absolute, with a slash at its end. */
export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

// What git ignores, and git itself: a walk works where the project was unpacked without its history, too. Folders of
// the first names hold code further down; the framework's own stand beside the bench's application as well.
const NOT_OURS =
  /^(\.git|node_modules|data|backups|out)$|(^|\/)(\.next[^/]*|next-env\.d\.ts)$|\.book(-wal|-shm)?$|\.tsbuildinfo$/;
const TEXT = /\.(tsx?|[cm]?js|json|md|css|sql|csv|txt|ya?ml|svg|html)$|^[^.]+$|^\.[a-z]+$/;

function walk(folder: string): string[] {
  return readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (NOT_OURS.test(path)) return [];
    return entry.isDirectory() ? walk(path) : [path.split(sep).join('/')];
  });
}

/** Every text file of the project, as a path from its folder with forward slashes. */
export const FILES: readonly string[] = walk('').filter((path) => TEXT.test(path.slice(path.lastIndexOf('/') + 1)));

export const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');

/** The files whose path fits the pattern. */
export const files = (pattern: RegExp): readonly string[] => FILES.filter((path) => pattern.test(path));
