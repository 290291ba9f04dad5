import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jsonLines } from '#db/exchange/read-folder.ts';

describe('the lines of the keys of a JSON text', () => {
  it('are told by their path', () => {
    const { lines, brokenAt } = jsonLines(
      '{\n "a": 1,\n "b": {\n  "c": [\n   {"d": "e: \\"f\\""}]},\r\n "\\u0041": null }\n',
    );
    expect(brokenAt).toBeNull();
    expect([...lines]).toEqual([
      ['a', 2],
      ['b', 3],
      ['b.c', 4],
      ['b.c.0.d', 5],
      ['A', 6],
    ]);
  });

  it('tell a key that is there twice', () => {
    expect(jsonLines('{"a": 1,\n"a": 2}').doubled).toEqual([{ path: 'a', line: 2 }]);
  });

  it.each([
    ['{"a": 1,\n}', 2],
    ['{"a": 1\n"b": 2}', 2],
    ['{\n"a": 01}', 2],
    ['{"a": "x\ny"}', 1],
    ["{\n\n'a': 1}", 3],
    ['{"a": 1}\n\nx', 3],
    ['{"a": 1\n', 2],
    ['', 1],
    ['{"a": NaN}', 1],
  ])('stop where the text is no JSON: %j', (text, line) => {
    expect(() => JSON.parse(text)).toThrow();
    expect(jsonLines(text).brokenAt).toBe(line);
  });

  it('takes what the language itself takes (RFC 8259)', () => {
    fc.assert(
      fc.property(fc.json(), fc.integer({ min: 0, max: 8 }), (text, indent) => {
        expect(jsonLines(JSON.stringify(JSON.parse(text), null, indent)).brokenAt).toBeNull();
      }),
    );
    fc.assert(
      fc.property(
        fc.string({
          unit: fc.constantFrom('{', '}', '[', ']', '"', 'a', ':', ',', '1', '-', '.', 'e', ' ', '\\', 'true'),
        }),
        (text) => {
          let good = true;
          try {
            JSON.parse(text);
          } catch {
            good = false;
          }
          expect(jsonLines(text).brokenAt === null).toBe(good);
        },
      ),
      { numRuns: 2000 },
    );
  });
});
