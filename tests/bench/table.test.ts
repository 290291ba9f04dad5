import { describe, expect, it } from 'vitest';
import { doubling, growthExponent, median, percentile } from './figures.ts';
import { machineWords } from './machine.ts';
import { isMet, pageWith, tableLine, tableText } from './table.ts';

const line = { what: 'an entry', against: 'bare', figures: [0.4, 0.6, 0.5], unit: '×', seen: '2 ms' };

describe('the figures', () => {
  it('are the middle, and the nearest rank', () => {
    expect(median([9, 1, 5])).toBe(5);
    expect(median([1, 2, 3, 10])).toBe(2.5);
    expect(percentile([5, 1, 4, 2, 3], 0.95)).toBe(5);
    expect(percentile([1, 2, 3, 4], 0.5)).toBe(2);
    expect(() => median([])).toThrow('Nothing was measured');
  });

  it('say 1 of a straight line and 2 of a square, whatever the unit', () => {
    const grown = (power: number) => [1000, 10_000, 100_000].map((size) => ({ size, took: 0.003 * size ** power }));
    expect(growthExponent(grown(1))).toBeCloseTo(1, 9);
    expect(growthExponent(grown(2))).toBeCloseTo(2, 9);
    expect(doubling(grown(1))).toBeCloseTo(2, 9);
    expect(doubling(grown(2))).toBeCloseTo(4, 9);
    expect(() => growthExponent([{ size: 5, took: 1 }])).toThrow('two sizes');
  });
});

describe('the table', () => {
  it('shows the median, the spread and whether the target is met', () => {
    expect(tableLine('door', { ...line, target: { atLeast: 0.5 } })).toBe(
      '| door | an entry | bare | 0.50 × | 0.40 to 0.60 | ≥ 0.50 × | yes | 2 ms |',
    );
    expect(isMet({ figures: [0.4, 0.4, 0.9], target: { atLeast: 0.5 } })).toBe(false);
    expect(isMet({ figures: [2.2], target: { atMost: 2.1 } })).toBe(false);
    expect(isMet({ figures: [1] })).toBeNull();
    expect(tableLine('door', { ...line, target: { atMost: 0.4 } })).toContain('| **no** |');
  });

  it('takes the place of the older lines of its rows only, and leaves the rest of the page', () => {
    const page = 'Words.\n<!-- table: written by the bench -->\n<!-- end of the table -->\nMore.\n';
    const order = ['door', 'settle'];
    const once = pageWith(page, new Map([['settle', [line]]]), { order, machine: 'A machine.' });
    const twice = pageWith(once, new Map([['door', [{ ...line, what: 'another' }]]]), { order, machine: 'A machine.' });
    expect(twice.startsWith('Words.\n')).toBe(true);
    expect(twice.endsWith('\nMore.\n')).toBe(true);
    expect(twice.match(/^\| (door|settle) \|.*$/gm)).toEqual([
      tableLine('door', { ...line, what: 'another' }),
      tableLine('settle', line),
    ]);
    expect(pageWith(twice, new Map([['settle', [line]]]), { order, machine: 'A machine.' })).toBe(twice);
    expect(() => pageWith('no place', new Map(), { order, machine: '' })).toThrow('lost the place');
  });

  it('names the machine without a path or a name of it', () => {
    expect(machineWords()).toMatch(/^Measured with Node \d+\.\d+\.\d+ on \d+ cores.* with \d+ GB of memory/);
    expect(tableText(new Map([['door', [line]]])).split('\n')).toHaveLength(3);
  });
});
