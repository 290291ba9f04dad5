import { describe, expect, it } from 'vitest';
import { guideAddress, guideHtml } from '#app/help/guides.ts';
import { anchors, links } from '#tests/tidy/markdown.ts';
import { files, read } from '#tests/tidy/tree.ts';

const GUIDES = files(/^docs\/[a-z-]+\.md$/).map((path) => path.replace(/^docs\/|\.md$/g, ''));

describe('a guide as HTML', () => {
  it('has the links of the program, and none that lead out of it', () => {
    expect(guideAddress('block.md', ['block'])).toBe('/help/block');
    expect(guideAddress('trade.md#health', ['trade'])).toBe('/help/trade#health');
    expect(guideAddress('#aligning-labels', [])).toBe('#aligning-labels');
    for (const out of ['../README.md', 'decisions/0001-x.md', 'https://a.test/b.md', 'javascript:alert(1)', 'no.md']) {
      expect(guideAddress(out, ['block']), out).toBeNull();
    }
  });

  it('runs nothing that stands in the text', () => {
    const html = guideHtml('<script>a()</script>\n\n[x](javascript:a())\n\nb <img src=x onerror=a()> c', []);
    expect(html).not.toMatch(/<script|<img|href=/);
    expect(html).toContain('&lt;img src=x');
  });

  it.each(GUIDES)('docs/%s.md gives a page with its headings and its links', (name) => {
    const text = read(`docs/${name}.md`);
    const html = guideHtml(text, GUIDES);
    expect(html.match(/<h1 /g)).toHaveLength(1);
    for (const anchor of anchors(text)) expect(html).toContain(`id="${anchor}"`);
    const inside = links(text).flatMap((link) => guideAddress(link, GUIDES) ?? []);
    for (const address of inside) expect(html).toContain(`href="${address}"`);
  });
});
