import type { Locator, Page } from 'playwright-core';

export interface KeyCount {
  /** Keys pressed since the start or the last `reset`. A chord such as Shift+Tab counts once for each key of it. */
  readonly pressed: () => number;
  /** Pointer presses in the same span, so that a test can show there were none. */
  readonly pointed: () => number;
  readonly reset: () => void;
}

/**
 * Counts the keys a person would press on this page, over every page load: it listens in the page itself, before the
 * page's own code, so whatever drives the keyboard is counted. A key held down (an auto-repeat) counts once.
 */
export async function countKeys(page: Page): Promise<KeyCount> {
  let pressed = 0;
  let pointed = 0;
  await page.exposeFunction('peltryTestKey', () => {
    pressed += 1;
  });
  await page.exposeFunction('peltryTestPointer', () => {
    pointed += 1;
  });
  const listen = () => {
    const hooks = window as unknown as Record<'peltryTestKey' | 'peltryTestPointer', () => void>;
    window.addEventListener('keydown', (event) => event.repeat || hooks.peltryTestKey(), true);
    window.addEventListener('pointerdown', () => hooks.peltryTestPointer(), true);
  };
  await page.addInitScript(listen);
  await page.evaluate(listen);
  return {
    pressed: () => pressed,
    pointed: () => pointed,
    reset: () => {
      pressed = 0;
      pointed = 0;
    },
  };
}

/** Goes on with Tab until this has the cursor, as somebody without a pointer does; gives up after a page's worth. */
export async function tabTo(page: Page, target: Locator): Promise<void> {
  const focused = target.and(page.locator(':focus'));
  for (let tries = 0; (await focused.count()) === 0; tries += 1) {
    if (tries === 80) throw new Error(`With the keyboard alone nobody comes to ${target}.`);
    await page.keyboard.press('Tab');
  }
}
