import { describe, expect, it } from 'vitest';
import { chaptersOf, stepsOf } from '#tests/support/guide-steps.ts';

describe('the steps of a guide', () => {
  it('are read sentence by sentence', () => {
    expect(stepsOf('Type `12.` into **Pieces**. Press `Enter`. See `1 lot so far`.')).toEqual([
      { does: 'type', text: '12.', into: 'Pieces' },
      { does: 'key', key: 'Enter' },
      { does: 'see', text: '1 lot so far' },
    ]);
    expect(
      stepsOf('Open `/till`. Press **Go on**. Tick **Cleared**. Untick **Weasel**. Pick `x`. Type `7`.'),
    ).toHaveLength(6);
    expect(stepsOf('Choose `Check` in **By**.')).toEqual([{ does: 'choose', option: 'Check', field: 'By' }]);
  });

  it('stand in the numbered items of a chapter and nowhere else', () => {
    const text = '# A\n\n1. Not yet.\n\n## One\n\nPress what you like.\n\n1. Press **Go on**.\n2. See `x`.\n\n## Two\n';
    expect(chaptersOf(text).map(({ title, steps }) => [title, steps.length])).toEqual([
      ['One', 2],
      ['Two', 0],
    ]);
  });

  it('may go over several lines of the text', () => {
    const [chapter] = chaptersOf('## One\n\n1. Press **Go\n   on**.\n2. See\n   `x`.\n');
    expect(chapter?.steps).toEqual([
      { does: 'press', name: 'Go on' },
      { does: 'see', text: 'x' },
    ]);
  });

  it('are refused in any other form, with the words that cannot be carried out', () => {
    expect(() => stepsOf('Press **Go on**. Then wait a little.')).toThrow('Then wait a little.');
    expect(() => stepsOf('Press **Go on**')).toThrow();
  });
});
