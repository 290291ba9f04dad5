import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nextStanding, type Standing } from '#app/ui/outbox-states.ts';

const ALL: readonly Standing[] = ['typed', 'kept', 'not kept', 'sent', 'saved', 'refused', 'let go'];
const standsAfter = (steps: readonly Standing[]) => steps.reduce<Standing>(nextStanding, 'typed');

describe('where an entry stands', () => {
  it.each<[string, Standing[], Standing]>([
    ['a good day', ['kept', 'sent', 'saved'], 'saved'],
    ['a browser that keeps nothing', ['not kept', 'saved'], 'saved'],
    ['what this tab alone has, while it is sent', ['not kept', 'sent'], 'not kept'],
    ['what was read back no more', ['kept', 'not kept'], 'not kept'],
    ['given back to its form, and saved once more', ['not kept', 'refused', 'typed', 'kept', 'sent', 'saved'], 'saved'],
    ['the store answers behind the book', ['saved', 'kept'], 'saved'],
    ['the book answers for an entry that was let go', ['kept', 'let go', 'saved'], 'let go'],
  ])('%s', (_what, steps, stands) => expect(standsAfter(steps)).toBe(stands));

  it('is saved only where the server has said so, and for good', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...ALL)), fc.array(fc.constantFrom(...ALL)), (before, behind) => {
        const stands = standsAfter(before);
        if (!before.includes('saved')) expect(stands).not.toBe('saved');
        if (stands === 'saved') expect(standsAfter([...before, ...behind])).toBe('saved');
      }),
    );
  });
});
