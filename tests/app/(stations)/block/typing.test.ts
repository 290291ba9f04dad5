import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EMPTY_DRAFT, nextTyping, type Typing } from '#app/(stations)/block/draft.ts';

const SAID = 'Clear what is typed first, then press +.';

/** What a key does to the price: a figure is typed, Backspace takes one out, a sign behind something says so. */
function press(typing: Typing, key: string): Typing {
  const { price } = typing.draft;
  if (key === '+') return price === '' ? typing : { ...typing, said: SAID };
  return nextTyping(typing, { price: key === 'Backspace' ? price.slice(0, -1) : price + key }, undefined);
}

describe('the price of a lot, typed by any keys', () => {
  it('is what was typed while nothing is said; while something is said it only gets shorter', () => {
    const keys = fc.array(fc.constantFrom('1', '2', '.', '+', 'Backspace'), { maxLength: 20 });
    fc.assert(
      fc.property(keys, (pressed) => {
        let now: Typing = { draft: EMPTY_DRAFT, said: '' };
        for (const key of pressed) {
          const before = now;
          now = press(now, key);
          const [was, is] = [before.draft.price, now.draft.price];
          if (before.said !== '') expect(was.startsWith(is)).toBe(true);
          else if (key === '+') expect(is).toBe(was);
          else expect(is).toBe(key === 'Backspace' ? was.slice(0, -1) : was + key);
          if (is === '') expect(now.said).toBe('');
        }
      }),
    );
  });
});
