import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

// The floor is WCAG 2.2 AA, with everything below it; the house asks for 7:1 contrast, which is of level AAA.
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

export interface Violation {
  /** axe-core's name for the rule, such as `color-contrast`. */
  readonly id: string;
  readonly help: string;
  /** The elements concerned, as CSS selectors. */
  readonly where: readonly string[];
}

/** What axe-core finds on the page as it stands; `expect(await axe(page)).toEqual([])` reads well when it fails. */
export async function axe(page: Page): Promise<readonly Violation[]> {
  // Of what passes nothing is read, so axe need not describe it; and as no page has frames, one page is enough.
  const builder = new AxeBuilder({ page }).setLegacyMode().options({
    runOnly: { type: 'tag', values: TAGS },
    rules: { 'color-contrast-enhanced': { enabled: true } },
    resultTypes: ['violations'],
  });
  const { violations } = await builder.analyze();
  return violations.map(({ id, help, nodes }) => ({ id, help, where: nodes.map((node) => node.target.join(' ')) }));
}
