import { describe, expect, it } from 'vitest';
import { sentenceOf, sentencesElsewhere } from '#app/ui/use-give.ts';
import { refuse } from '#lib/result/result.ts';

describe('what a refusal says', () => {
  const weight = refuse('malformed', 'Leave the weight out.', 'weight');
  const both = { ...weight, also: [refuse('missing', 'Enter the pieces.', 'count')] };

  it('is said at each field that is drawn, and the rest elsewhere', () => {
    expect(sentenceOf(both, 'count')).toBe('Enter the pieces.');
    expect(sentencesElsewhere(both, new Set(['count', 'weight']))).toBe('');
    expect(sentencesElsewhere(both, new Set(['count', 'minimum']))).toBe('Leave the weight out.');
    expect(sentencesElsewhere(both, new Set())).toBe('Leave the weight out. Enter the pieces.');
  });

  it('is said elsewhere where it names no field or one that no form knows, and once', () => {
    expect(sentencesElsewhere(refuse('wrong_stage', 'The sale is over.'), new Set(['count']))).toBe(
      'The sale is over.',
    );
    const twice = { ...weight, also: [{ ...weight, field: 'else' }] };
    expect(sentencesElsewhere(twice, new Set())).toBe('Leave the weight out.');
    expect(sentencesElsewhere(undefined, new Set())).toBe('');
  });
});
