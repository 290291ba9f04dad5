/** Values that somebody might send to break the door: what texts, numbers and shapes have brought programs down. */
import fc from 'fast-check';

// Each is here for a reason: names every object has, what other languages read as code, figures of other scripts and
// notations, characters that cannot be stored or printed, and sheer length.
const TEXTS = [
  ...['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'valueOf', 'length', 'null', 'undefined', 'NaN'],
  ...["'; DROP TABLE lot; --", '" OR 1=1', '$.x', '%s%n', '{{7*7}}', '=1+1', '../../etc/passwd', '<script>'],
  ...['9'.repeat(400), `0.${'0'.repeat(300)}1`, '1e400', '0x10', '-0', '１２', '٣', '1,000.00', '−5', '0.005', '1.'],
  ...['90071992547409.93', '99999999999999999999', '-90071992547409.92', '1/3', '½', ' 3 ', '+3', '3.', '.5'],
  ...['\u0000', 'a\u0000b', '\ud800', '\udc00x', '\u202e', '\ufeff', '\u2028', 'e\u0301', '👩‍🌾', '\r\n', '\u001b[31m'],
  ...['2026-02-30', '+010000-01-01', '-000001-01-01', '2026-02-28T10:00:00+14:00', '9999-12-31', '0000-00-00'],
  ...['x'.repeat(501), 'Ä'.repeat(5000), ' '.repeat(600), '\n'.repeat(499), '(a+)+$'.repeat(80), 'a'.repeat(499)],
];

const NUMBERS = [
  ...[0, -0, -1, 1.5, 0.1 + 0.2, 1e308, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 5e-324],
  ...[2 ** 31, -(2 ** 31) - 1, 2 ** 53 - 1, 2 ** 53, 2 ** 63, -(2 ** 63), 99_999, 100_000, 1e21],
];

/** Deeper than any stack of a program that walks it by calling itself, and read by JSON.parse without a word. */
const DEEP = 20_000;

function deepArray(): unknown {
  return JSON.parse(`${'['.repeat(DEEP)}${']'.repeat(DEEP)}`);
}

export function deepObject(): unknown {
  return JSON.parse(`${'{"sale":'.repeat(DEEP)}1${'}'.repeat(DEEP)}`);
}

// JSON makes such keys the object's own, where a literal would set its prototype.
const OWN_KEYS = [
  '{"__proto__":{"polluted":true}}',
  '{"__proto__":null,"name":"x"}',
  '{"constructor":{"prototype":{"polluted":true}}}',
  '{"toString":1,"valueOf":2,"toJSON":"x","then":1}',
  '{"0":"x","length":1000000000}',
].map((text) => (): unknown => JSON.parse(text));

export const hostileText: fc.Arbitrary<string> = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...TEXTS) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 40 }) },
);

export const hostileValue: fc.Arbitrary<unknown> = fc.oneof(
  { weight: 6, arbitrary: hostileText },
  { weight: 4, arbitrary: fc.constantFrom(...NUMBERS) },
  { weight: 2, arbitrary: fc.constantFrom<unknown>(null, true, false, [], {}, '') },
  { weight: 2, arbitrary: fc.constantFrom(...OWN_KEYS).map((make) => make()) },
  { weight: 1, arbitrary: fc.constantFrom(deepArray, deepObject).map((make) => make()) },
  { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 3 }) },
  { weight: 1, arbitrary: fc.constantFrom(1, 2000).map((many) => Array.from({ length: many }, () => ({ x: 'y' }))) },
);
