import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

type Options = Parameters<AxeBuilder['options']>[0];

/**
 * The house asks for 7:1 contrast (level AAA), and 4.5:1 in large letters. As it comes, axe's rule leaves what misses the
 * 4.5:1 of level AA to another rule; here one rule finds both, as measuring contrast is most of the time that axe takes.
 */
const CONTRAST = 'color-contrast-enhanced';
const RATIOS = { normal: { expected: 7, minThreshold: 0 }, large: { expected: 4.5, minThreshold: 0 } };
const checks = { [CONTRAST]: { options: { contrastRatio: RATIOS } } };

// The floor is WCAG 2.2 AA, with everything below it.
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const ALL: Options = {
  runOnly: { type: 'tag', values: TAGS },
  rules: { [CONTRAST]: { enabled: true }, 'color-contrast': { enabled: false } },
};
/** A theme changes colours, and makes everything larger in the sun: nothing that the other rules could find. */
const OF_A_THEME: Options = { runOnly: [CONTRAST] };

const THEMES = ['light', 'dark', 'sun'] as const;

export interface Violation {
  /** axe-core's name for the rule, such as `color-contrast`. */
  readonly id: string;
  readonly help: string;
  /** The elements concerned, as CSS selectors. */
  readonly where: readonly string[];
}

/** What axe-core finds on the page as it stands; `expect(await axe(page)).toEqual([])` reads well when it fails. */
export async function axe(page: Page): Promise<readonly Violation[]> {
  // As no page has frames, one page is enough.
  const builder = new AxeBuilder({ page }).setLegacyMode().options(asked(ALL));
  return (await builder.analyze()).violations.map(told);
}

// Of what passes nothing is read, so axe need not describe it.
const asked = (options: Options) => ({ ...options, checks, resultTypes: ['violations' as const] });

const told = ({ id, help, nodes }: Found): Violation => ({
  ...{ id, help },
  where: nodes.map((node) => node.target.join(' ')),
});

type Found = Awaited<ReturnType<AxeBuilder['analyze']>>['violations'][number];

/** Asks once more on a page where axe has been already: it need not be read in again, which takes longer than a rule. */
async function again(page: Page, options: Options): Promise<readonly Violation[]> {
  const run = (given: object) =>
    (window as unknown as { axe: { run(given: object): Promise<{ violations: Found[] }> } }).axe
      .run(given)
      .then(({ violations }) => violations);
  return (await page.evaluate(run, asked(options))).map(told);
}

/** The same in each theme, of one loading: all rules in the first, and in the others those that a theme can break. */
export async function axeInThemes(page: Page): Promise<readonly (Violation & { readonly theme: string })[]> {
  const found: (Violation & { theme: string })[] = [];
  for (const theme of THEMES) {
    await page.evaluate((name) => document.documentElement.setAttribute('data-theme', name), theme);
    const violations = theme === THEMES[0] ? await axe(page) : await again(page, OF_A_THEME);
    for (const violation of violations) found.push({ ...violation, theme });
  }
  return found;
}
