/** axe-core (deque.com/axe) on a page as it stands. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';

const SOURCE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * The house asks for 7:1 contrast (level AAA), and 4.5:1 in large letters. As it comes, axe's rule leaves what misses the
 * 4.5:1 of level AA to another rule; here one rule finds both, as measuring contrast is most of the time that axe takes.
 */
const CONTRAST = 'color-contrast-enhanced';
const RATIOS = { normal: { expected: 7, minThreshold: 0 }, large: { expected: 4.5, minThreshold: 0 } };

// The floor is WCAG 2.2 AA, with everything below it.
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
// Of what passes nothing is read, so axe need not describe it.
const OURS = {
  checks: { [CONTRAST]: { options: { contrastRatio: RATIOS } } },
  resultTypes: ['violations'] satisfies RunOptions['resultTypes'],
};
const ALL: RunOptions = {
  ...OURS,
  runOnly: { type: 'tag', values: TAGS },
  rules: { [CONTRAST]: { enabled: true }, 'color-contrast': { enabled: false } },
};
/** A theme changes colours, and makes everything larger in the sun: nothing that the other rules could find. */
const OF_A_THEME: RunOptions = { ...OURS, runOnly: [CONTRAST] };

const THEMES = ['light', 'dark', 'sun'] as const;

export interface Violation {
  /** axe-core's name for the rule, such as `color-contrast`. */
  readonly id: string;
  readonly help: string;
  /** The elements concerned, as CSS selectors. */
  readonly where: readonly string[];
}

/** What axe-core finds on the page as it stands; `expect(await axe(page)).toEqual([])` reads well when it fails. */
export async function axe(page: Page, options: RunOptions = ALL): Promise<readonly Violation[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(SOURCE);
  const run = (given: RunOptions) =>
    (window as unknown as { axe: { run(given: RunOptions): Promise<AxeResults> } }).axe.run(given).then((results) =>
      results.violations.map(({ id, help, nodes }) => ({
        id,
        help,
        where: nodes.map((node) => node.target.join(' ')),
      })),
    );
  return page.evaluate(run, options);
}

/** The same in each theme, of one loading: all rules in the first, and in the others those that a theme can break. */
export async function axeInThemes(page: Page): Promise<readonly (Violation & { readonly theme: string })[]> {
  const found: (Violation & { theme: string })[] = [];
  for (const theme of THEMES) {
    await page.evaluate((name) => document.documentElement.setAttribute('data-theme', name), theme);
    const violations = await axe(page, theme === THEMES[0] ? ALL : OF_A_THEME);
    for (const violation of violations) found.push({ ...violation, theme });
  }
  return found;
}

/**
 * Hides of the rows of each table, of the points of each list and of other long rows, all but three of every kind: what is built of the same
 * elements in the same classes and states looks the same, and axe would measure each of hundreds.
 */
export async function foldRepeated(page: Page): Promise<void> {
  await page.evaluate(() => {
    const OF_ONE =
      /^(id|href|value|name|for|title|d|x\d?|y\d?|points|transform|aria-(describedby|labelledby|controls|label))$/;
    const built = (element: Element): string => {
      const said = [...element.attributes]
        .filter(({ name }) => !OF_ONE.test(name))
        .map(({ name, value }) => `${name}=${value.replace(/\d+/g, '0')}`);
      return `${element.tagName}[${said}]${element.textContent?.trim() !== ''}(${[...element.children].map(built)})`;
    };
    for (const list of document.querySelectorAll('body *')) {
      if (list.children.length < 6) continue;
      const seen = new Map<string, number>();
      for (const one of list.children) {
        const kind = built(one);
        const many = (seen.get(kind) ?? 0) + 1;
        seen.set(kind, many);
        if (many > 3 && one instanceof HTMLElement) one.style.display = 'none';
      }
    }
  });
}
