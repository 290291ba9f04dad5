import { describe, expect, it } from 'vitest';
import { anchors, broken, links } from './markdown.ts';
import { FILES, files, read } from './tree.ts';

const DECISION = /^docs\/decisions\/(\d{4})-[a-z0-9-]+\.md$/;
const HEADINGS = ['Context', 'Decision', 'Consequences', 'Alternatives'];
const MOST_WORDS = 420;

const headings = (text: string) => [...text.matchAll(/^## (.+)$/gm)].map((match) => match[1]);
const twice = <T>(list: readonly T[]) => list.filter((each, at) => list.indexOf(each) !== at);

describe('the links of every page', () => {
  it('are found as Markdown has them', () => {
    const page = '# A title: yes\n[a](b.md#x) ![p](p.svg "P") `[no](none)`\n```\n[no](none)\n```\n[r]: c.md\n';
    expect(links(page)).toEqual(['b.md#x', 'p.svg', 'c.md']);
    expect(anchors(page)).toEqual(['a-title-yes']);
    expect(broken('docs/x.md', 'none.md')).toBe('no such file');
    expect(broken('docs/x.md', '../../x.md')).toBe('leads out of the project');
  });

  it('lead somewhere', () => {
    const loose = files(/\.md$/).flatMap((path) =>
      links(read(path)).flatMap((link) => {
        const why = broken(path, link);
        return why === null ? [] : [`${path}: ${link}: ${why}`];
      }),
    );
    expect(loose).toEqual([]);
  });
});

describe('the decisions', () => {
  const decisions = files(/^docs\/decisions\//);

  it('are there, each under a name of its own number', () => {
    expect(decisions.length).toBeGreaterThan(0);
    expect(decisions.filter((path) => !DECISION.test(path))).toEqual([]);
    expect(twice(decisions.map((path) => DECISION.exec(path)?.[1]))).toEqual([]);
  });

  it.each(decisions)('%s has a date, the four headings, and no more words than are read', (path) => {
    const text = read(path);
    expect(text.split('\n').slice(0, 5).join('\n')).toMatch(/^.*\b20\d\d-\d\d-\d\d\b/m);
    expect(headings(text)).toEqual(HEADINGS);
    expect(text.split(/\s+/).length).toBeLessThanOrEqual(MOST_WORDS);
  });
});

describe('the table of security', () => {
  it('names for each requirement that is met the test that shows it, and the test is there', () => {
    const rows = read('docs/security.md').match(/^\| V[\d.]+[^|]*\|[^|]*\| met.*$/gm) ?? [];
    expect(rows.length).toBeGreaterThan(70);
    expect(rows.filter((row) => !/`tests\/|`callers`|by reading|nothing of ours/.test(row))).toEqual([]);
    const named = rows.flatMap((row) => [...row.matchAll(/`(tests\/[^`]+)`/g)].map(([, path]) => path ?? ''));
    expect(named.filter((path) => !FILES.includes(path))).toEqual([]);
  });
});

/** A term stands in the first cell of a table's row, or in bold at the start of a line or a list's point. */
function terms(text: string): readonly string[] {
  const cells = [...text.matchAll(/^\|\s*(?![\s:-])([^|]+?)\s*\|/gm)].map((match) => match[1] ?? '');
  const bold = [...text.matchAll(/^(?:[-*]\s+)?\*\*([^*]+)\*\*/gm)].map((match) => match[1] ?? '');
  return [...cells.filter((cell) => !/^(term|word)$/i.test(cell)), ...bold].map((term) =>
    term.replace(/[*`.:]/g, '').toLowerCase(),
  );
}

describe('the glossary', () => {
  it('is read as a table or as a list', () => {
    expect(terms('| Term | Means |\n| --- | --- |\n| Lot | x |\n| **hammer price** | y |\n')).toEqual([
      'lot',
      'hammer price',
    ]);
    expect(terms('- **Lot**: x\n**Lot.** y\n')).toEqual(['lot', 'lot']);
  });

  it('has each term once', () => {
    expect(FILES).toContain('docs/glossary.md');
    const found = terms(read('docs/glossary.md'));
    expect(found.length).toBeGreaterThan(10);
    expect(twice(found)).toEqual([]);
  });
});
