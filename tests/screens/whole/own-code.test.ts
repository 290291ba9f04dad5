import { describe, expect, it } from 'vitest';
import { firstScripts, scriptsBehind } from '#tests/screens/support/own-code.ts';

describe('the code that a browser loads beyond what every page has', () => {
  it.each([
    ['(stations)/block', 14_200],
    ['(hall)/board', 2_500],
  ])('%s stays below %i bytes at first, its libraries with it', (page, most) => {
    const { bytes } = firstScripts(page);
    expect(bytes).toBeGreaterThan(1000);
    expect(bytes).toBeLessThan(most);
  });

  it.each([['(stations)/block', 7_200]])('%s fetches no more than %i bytes behind its first code', (page, most) => {
    const { bytes } = scriptsBehind(page);
    expect(bytes).toBeGreaterThan(1000);
    expect(bytes).toBeLessThan(most);
  });

  it('fetches nothing behind the first code of the Board', () => {
    expect(scriptsBehind('(hall)/board').names).toEqual([]);
  });

  it('holds no library of decimals at the Block', () => {
    const page = '(stations)/block';
    expect(firstScripts(page).text + scriptsBehind(page).text).not.toContain('[DecimalError]');
  });
});
