/** Carries out the steps of a guide in a browser, as somebody would who knows nothing else. */
import type { Locator, Page } from 'playwright-core';
import type { Step } from '#tests/support/guide-steps.ts';

/** Follows the steps one by one; where one cannot be carried out, the error says which, and what stands on the page. */
export async function follow(page: Page, url: string, steps: readonly Step[]): Promise<void> {
  for (const step of steps) {
    try {
      await carryOut(page, url, step);
    } catch (fault) {
      const seen = await page.locator('body').innerText();
      throw new Error(`This step could not be carried out: ${JSON.stringify(step)}\n${fault}\nOn the page:\n${seen}`);
    }
  }
}

type Acts = {
  readonly [Does in Step['does']]: (page: Page, step: Extract<Step, { does: Does }>, url: string) => Promise<unknown>;
};

/** One action for each kind of step. */
export const ACTS: Acts = {
  open: (page, { path }, url) => open(page, url + path),
  type: (page, { text, into }) => (into === null ? typeOn(page, text) : field(page, into).fill(text)),
  key: (page, { key }) => page.keyboard.press(key),
  press: (page, { name }) => press(page, name),
  choose: (page, { option, field: label }) => field(page, label).selectOption({ label: option }),
  pick: (page, { text }) => page.getByRole('option').filter({ hasText: text }).first().click(),
  tick: (page, { field: label }) => field(page, label).check(),
  untick: (page, { field: label }) => field(page, label).uncheck(),
  see: (page, { text }) => page.getByText(text).filter({ visible: true }).first().waitFor(),
};

async function carryOut(page: Page, url: string, step: Step): Promise<void> {
  const act = ACTS[step.does] as (page: Page, step: Step, url: string) => Promise<unknown>;
  await act(page, step, url);
}

/** A page of a station answers to keys once its mark of what is saved stands there. */
async function open(page: Page, address: string): Promise<void> {
  await page.goto(address);
  await page.locator('.saved-mark').waitFor({ state: 'attached' });
}

/** Typing begins when the cursor stands in an empty field, which is when a person begins. */
async function typeOn(page: Page, text: string): Promise<void> {
  await page.waitForFunction(() => {
    const cursor = document.activeElement;
    return cursor instanceof HTMLInputElement && cursor.value === '';
  });
  await page.keyboard.type(text);
}

function field(page: Page, label: string): Locator {
  const controls = page.locator('input, select, textarea').filter({ visible: true });
  return controls.and(page.getByLabel(label, { exact: true })).first();
}

/** A button of this name, else a link or what opens more: a page may be called as the act on it is. */
async function press(page: Page, name: string): Promise<void> {
  const button = page.getByRole('button', { name, exact: true }).filter({ visible: true }).first();
  const link = page
    .getByRole('link', { name, exact: true })
    .or(page.locator('summary').getByText(name, { exact: true }));
  const other = link.filter({ visible: true }).first();
  await button.or(other).first().waitFor();
  await ((await button.count()) > 0 ? button : other).click();
}
