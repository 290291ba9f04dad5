import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Marked, type Tokens } from 'marked';

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

/** Where headings can be linked to, as GitHub makes it of their words. */
function anchorOf(words: string): string {
  return words
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s_-]/gu, '')
    .replace(/\s/g, '-');
}

function escaped(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
}

/** Where a link of a guide leads within the program, or null for what only the folder of the program has. */
export function guideAddress(href: string, guides: readonly string[]): string | null {
  if (href.startsWith('#')) return href;
  const [file = '', anchor] = href.split('#');
  const name = /^([a-z-]+)\.md$/.exec(file)?.[1];
  if (name === undefined || !guides.includes(name)) return null;
  return `/help/${name}${anchor === undefined ? '' : `#${anchor}`}`;
}

/**
 * A guide as HTML. It is our own text, and still nothing of it runs: raw HTML in it is shown as text. `guides` are the
 * names of those that can be linked to.
 */
export function guideHtml(markdown: string, guides: readonly string[]): string {
  const marked = new Marked({ gfm: true, async: false });
  marked.use({
    renderer: {
      heading({ tokens, depth, text }: Tokens.Heading) {
        const words = this.parser.parseInline(tokens);
        return `<h${depth} id="${escaped(anchorOf(text))}">${words}</h${depth}>\n`;
      },
      html({ text }: Tokens.HTML | Tokens.Tag) {
        return escaped(text);
      },
      link({ href, tokens }: Tokens.Link) {
        const words = this.parser.parseInline(tokens);
        const address = guideAddress(href, guides);
        return address === null ? words : `<a href="${escaped(address)}">${words}</a>`;
      },
      image({ href, text }: Tokens.Image) {
        const file = /^pictures\/[a-z-]+\.png$/.exec(href)?.[0];
        return file === undefined ? escaped(text) : `<img src="/help/${file}" alt="${escaped(text)}">`;
      },
    },
  });
  const html = marked.parse(markdown) as string;
  // A wide table scrolls by itself, so that the page does not; it can be reached by keyboard for that.
  return html
    .replaceAll('<table>', '<div class="scroll-x" tabindex="0" role="group" aria-label="Table"><table>')
    .replaceAll('</table>', '</table></div>');
}
