/** A browser whose storage does not keep what it is given, in each of the ways in which that is met. */
import type { Page } from 'playwright-core';

export const REFUSALS = ['it cannot be opened', 'the disk is full', 'what was stored is taken back'] as const;
export type Refusal = (typeof REFUSALS)[number];

/** To be called before the page is opened. */
export async function withoutStorage(page: Page, refusal: Refusal): Promise<void> {
  await page.addInitScript((how) => {
    const full = () => new DOMException('The disk is full.', 'QuotaExceededError');
    if (how === 'it cannot be opened') {
      IDBFactory.prototype.open = () => {
        throw new DOMException('Storage is refused.', 'SecurityError');
      };
      // Whoever refuses the one refuses the others.
      for (const storage of ['localStorage', 'sessionStorage'] as const) {
        Object.defineProperty(window, storage, {
          get: () => {
            throw new DOMException('Storage is refused.', 'SecurityError');
          },
        });
      }
    } else if (how === 'the disk is full') {
      IDBObjectStore.prototype.add = () => {
        throw full();
      };
      IDBObjectStore.prototype.put = IDBObjectStore.prototype.add;
    } else {
      const add = IDBObjectStore.prototype.add;
      IDBObjectStore.prototype.add = function (...given) {
        const request = add.apply(this, given);
        request.addEventListener('success', () => this.transaction.abort());
        return request;
      };
    }
  }, refusal);
}
