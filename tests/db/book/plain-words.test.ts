import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { plainWords } from '#db/book/inputs.ts';

const shape = z.strictObject({
  kind: z.enum(['written', 'left']),
  count: z.int().min(1).max(9),
  name: z.string().max(3),
  list: z.array(z.string()).min(1),
  flag: z.boolean(),
});
const good = { kind: 'left', count: 1, name: 'Ada', list: ['x'], flag: true };

describe('plain words', () => {
  it.each([
    [{ kind: 'shouted' }, 'Choose one of these: written, left.'],
    [{ colour: 'red' }, 'Leave out colour: this entry has no such field.'],
    [{ count: undefined }, 'Fill this in: it is missing.'],
    [{ count: '1' }, 'Enter this as a number.'],
    [{ count: 1.5 }, 'Enter this as a whole number.'],
    [{ count: 10 }, 'Enter at most 9.'],
    [{ count: 0 }, 'Enter at least 1.'],
    [{ name: 'Adam' }, 'Enter at most 3 characters.'],
    [{ name: 7 }, 'Enter this as text.'],
    [{ list: [] }, 'Enter at least 1 of them.'],
    [{ list: 'x' }, 'Enter this as a list.'],
    [{ flag: 'yes' }, 'Enter this as yes or no.'],
  ])('say of %j: %s', (over, sentence) => {
    const parsed = shape.safeParse({ ...good, ...over }, { error: plainWords });
    expect(parsed.error?.issues.map(({ message }) => message)).toEqual([sentence]);
  });

  it('leave a message alone that the schema has', () => {
    const own = z.enum(['a'], { error: 'Choose a.' }).safeParse('b', { error: plainWords });
    expect(own.error?.issues.map(({ message }) => message)).toEqual(['Choose a.']);
  });
});
