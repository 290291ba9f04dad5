import { describe, expect, it } from 'vitest';
import { read } from '#tests/tidy/tree.ts';

/** The colours of each theme by their names, as tokens.css has them; dark twice, chosen and as the device is. */
const CSS = read('app/ui/styles/tokens.css');
const THEMES = {
  light: colours(/ {2}:root \{([^}]*)\}/),
  dark: colours(/:root\[data-theme="dark"\] \{([^}]*)\}/),
  'dark, as the device is': colours(/:root:not\(\[data-theme\]\) \{([^}]*)\}/),
  sun: colours(/:root\[data-theme="sun"\] \{([^}]*)\}/),
};

function colours(block: RegExp): ReadonlyMap<string, string> {
  const body = block.exec(CSS)?.[1] ?? '';
  return new Map([...body.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map(([, name = '', hex = '']) => [name, hex]));
}

/** Relative luminance and contrast ratio as WCAG 2.2 defines them (W3C Recommendation, glossary). */
function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

const TEXT = [
  ...['ink', 'ink-soft', 'accent', 'stop', 'wait'].flatMap((text) => [`${text} on ground`, `${text} on sheet`]),
  ...['ink on accent-wash', 'ink on stop-wash', 'ink on wait-wash', 'accent-ink on accent'],
  ...['accent on accent-wash', 'stop on stop-wash', 'wait on wait-wash'],
];
/** Borders of fields and buttons, and the ring of focus (WCAG 2.2, 1.4.11). */
const EDGES = ['line-strong', 'accent', 'stop', 'wait', 'focus'].flatMap((edge) => [
  `${edge} on ground`,
  `${edge} on sheet`,
]);

describe('the colours of each theme', () => {
  it('are measured as WCAG measures them', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
    // The W3C's own understanding of 1.4.3 names #767676 on white as 4.54, and #777777 as 4.48 (from memory).
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
    expect(contrast('#ffffff', '#777777')).toBeCloseTo(4.48, 2);
  });

  it.each(Object.entries(THEMES))('in %s leave text at 7:1 and edges at 3:1', (_, theme) => {
    const ratio = (pair: string) => {
      const [one = '', other = ''] = pair.split(' on ').map((name) => theme.get(name) ?? '');
      return contrast(one, other);
    };
    expect(theme.size).toBeGreaterThanOrEqual(14);
    expect(TEXT.filter((pair) => !(ratio(pair) >= 7))).toEqual([]);
    expect(EDGES.filter((pair) => !(ratio(pair) >= 3))).toEqual([]);
  });

  it('are the same in the dark whether it was chosen or not', () => {
    expect(THEMES['dark, as the device is']).toEqual(THEMES.dark);
  });
});
