import { existsSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { ROOT, read } from './tree.ts';

/** The text without what is shown as code, where a bracket is no link and a hash no heading. */
const prose = (text: string): string => text.replace(/^(```|~~~)[\s\S]*?^\1/gm, '').replace(/`[^`\n]*`/g, '');

/** The targets of the links and pictures of a page, as written. */
export function links(text: string): readonly string[] {
  const inline = prose(text).matchAll(/\]\(\s*<?([^)\s>]+)>?(?:\s+"[^"]*")?\s*\)/g);
  const defined = prose(text).matchAll(/^\[[^\]]+\]:\s*(\S+)/gm);
  return [...inline, ...defined].map((match) => match[1] ?? '');
}

/** The anchors that headings get where Markdown is shown, as GitHub makes them. */
export function anchors(text: string): readonly string[] {
  const headings = text.replace(/^(```|~~~)[\s\S]*?^\1/gm, '').matchAll(/^#{1,6}\s+(.+?)\s*$/gm);
  return [...headings].map((match) =>
    (match[1] ?? '')
      .toLowerCase()
      .replace(/[^\p{L}\p{N}\s_-]/gu, '')
      .replace(/\s/g, '-'),
  );
}

const OUTSIDE = /^[a-z][a-z+.-]*:/i;

/** Why a link of the page at `path` leads nowhere, or null where it leads somewhere or outside the project. */
export function broken(path: string, link: string): string | null {
  if (OUTSIDE.test(link)) return null;
  const [file = '', anchor] = decodeURI(link).split('#');
  const target = file === '' ? path : normalize(join(dirname(path), file));
  if (target.startsWith('..')) return 'leads out of the project';
  if (!existsSync(join(ROOT, target))) return 'no such file';
  if (anchor !== undefined && target.endsWith('.md') && !anchors(read(target)).includes(anchor)) {
    return 'no such heading';
  }
  return null;
}
