import { describe, expect, it } from 'vitest';
import { decideMend, FINDINGS, type MendContext, mendableTags } from '#lib/tag/mend.ts';

const FEDERAL = 'US-CITES FWS-REPL 001234';
const scene = (over: Partial<MendContext> = {}): MendContext => ({
  ...{ lotNo: '12', tag: 'US-CITES WY BOB 2025 000101', state: 'good', replacedBy: null, replacementMended: false },
  ...{ called: true, movedOn: false },
  ...over,
});
const answers = (over: Partial<MendContext>) =>
  FINDINGS.map((found) => {
    const decided = decideMend(scene(over), found);
    return decided.ok ? 'ok' : decided.code;
  });

describe('what may be said of a tag after the hammer', () => {
  // In the order of the findings: broken, replaced, whole.
  it.each([
    ['good', ['ok', 'ok', 'not_allowed']],
    ['waiting', ['already', 'ok', 'ok']],
    ['replaced', ['already', 'already', 'ok']],
    ['broken_before', ['already', 'already', 'not_allowed']],
    [null, ['unknown', 'unknown', 'unknown']],
  ] as const)('of one that is %s', (state, ought) => {
    expect(answers({ state, replacedBy: state === 'replaced' ? FEDERAL : null })).toEqual(ought);
  });

  it('is nothing before the lot is called, nor of a tag that stands on another lot now', () => {
    expect(answers({ called: false })).toEqual(['wrong_stage', 'wrong_stage', 'wrong_stage']);
    // Without a word on the tag, because it may not be the lot's at all.
    expect(answers({ called: false, state: null })).toEqual(['wrong_stage', 'wrong_stage', 'wrong_stage']);
    expect(answers({ movedOn: true, state: 'waiting' })).toEqual(['conflict', 'conflict', 'conflict']);
  });

  it('is taken back from the replacement first', () => {
    const replaced = scene({ state: 'replaced', replacedBy: FEDERAL, replacementMended: true });
    expect(decideMend(replaced, 'whole')).toMatchObject({
      code: 'conflict',
      message: expect.stringContaining(`said of ${FEDERAL}`),
    });
  });

  it('says which of two reasons a tag is on no piece', () => {
    const replaced = decideMend(scene({ state: 'replaced', replacedBy: FEDERAL }), 'broken');
    expect(replaced).toMatchObject({ message: expect.stringContaining(`was replaced by ${FEDERAL}`) });
    const broken = decideMend(scene({ state: 'broken_before' }), 'broken');
    expect(broken).toMatchObject({ message: expect.stringContaining('was broken when the lot was called') });
  });
});

describe('the tags of a called lot of which something can be said', () => {
  it('are all but those that broke before the hammer, with what was said since', () => {
    expect(
      mendableTags([
        { tag: 'A 101', condition: 'intact' },
        { tag: 'A 102', condition: 'broken' },
        { tag: 'A 103', condition: 'broken', mended: { by: null } },
        { tag: 'A 104', condition: 'broken', mended: { by: FEDERAL } },
        { tag: FEDERAL, condition: 'replacement' },
      ]),
    ).toEqual([
      { tag: 'A 101', words: 'A 101' },
      { tag: 'A 103', words: 'A 103 (broken, awaits its replacement)' },
      { tag: 'A 104', words: `A 104 (replaced by ${FEDERAL})` },
      { tag: FEDERAL, words: FEDERAL },
    ]);
  });
});
