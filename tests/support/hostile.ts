import fc from 'fast-check';

/** Values that somebody might send to break the door: what texts, numbers and shapes have brought programs down. */

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

/** Random inputs from the JSON Schema of a command: mostly such as a screen sends, with something hostile in places. */

/** What of JSON Schema 2020-12 the commands' inputs use. */
export interface Schema {
  readonly type?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: Schema | boolean;
  readonly propertyNames?: Schema;
  readonly items?: Schema | boolean;
  readonly prefixItems?: readonly Schema[];
  readonly anyOf?: readonly Schema[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly minimum?: number;
}

/** Gives what a field of this name may hold in the book at hand, or nothing where any text or number will do. */
export type Names = (field: string) => readonly unknown[] | undefined;

/** Of so many values in a place one is hostile. */
const HOSTILE_ONE_IN = 25;
const MOST_ITEMS = 3;

export function inputOf(schema: Schema, names: Names): fc.Arbitrary<unknown> {
  return fc.oneof({ weight: 40, arbitrary: arbitraryOf(schema, '', names) }, { weight: 1, arbitrary: hostileValue });
}

function arbitraryOf(schema: Schema, field: string, names: Names): fc.Arbitrary<unknown> {
  const weights = { weight: HOSTILE_ONE_IN - 1, arbitrary: fittingOf(schema, field, names) };
  return fc.oneof(weights, { weight: 1, arbitrary: schema.type === 'string' ? hostileTextOrValue : hostileValue });
}

const hostileTextOrValue = fc.oneof({ weight: 4, arbitrary: hostileText }, { weight: 1, arbitrary: hostileValue });

function fittingOf(schema: Schema, field: string, names: Names): fc.Arbitrary<unknown> {
  if (schema.enum) return fc.constantFrom(...schema.enum);
  if (schema.anyOf) return fc.oneof(...schema.anyOf.map((each) => fittingOf(each, field, names)));
  const known = names(field);
  switch (schema.type) {
    case 'object':
      return schema.properties ? objectOf(schema, schema.properties, names) : recordOf(schema, names);
    case 'array':
      return arrayOf(schema, field, names);
    case 'boolean':
      return fc.boolean();
    case 'null':
      return fc.constant(null);
    case 'integer':
      return fc.constantFrom(...(known ?? [schema.minimum ?? 1, 1, 2, 3, 20]));
    case 'string':
      return fc.constantFrom(...(known ?? ['', '1', '3', '7.25', 'misheard', 'Zoë Łęcka']));
    default:
      return hostileValue;
  }
}

/** The fields that are known, and now and then one that is not. */
function objectOf(schema: Schema, fields: Readonly<Record<string, Schema>>, names: Names): fc.Arbitrary<unknown> {
  const parts = Object.entries(fields).map(([name, each]) => [name, arbitraryOf(each, name, names)] as const);
  const record = fc.record(Object.fromEntries(parts), { requiredKeys: [...(schema.required ?? [])] });
  const stray = fc.tuple(record, hostileText, hostileValue).map(([object, key, value]) => withOwn(object, key, value));
  const lacking = fc.record(Object.fromEntries(parts), { requiredKeys: [] });
  return fc.oneof(
    { weight: 30, arbitrary: record },
    { weight: 1, arbitrary: stray },
    { weight: 1, arbitrary: lacking },
  );
}

function recordOf({ propertyNames, additionalProperties }: Schema, names: Names): fc.Arbitrary<unknown> {
  const key = propertyNames?.enum ? fc.constantFrom(...(propertyNames.enum as string[])) : fc.constant('raccoon');
  const keys = fc.oneof({ weight: 9, arbitrary: key }, { weight: 1, arbitrary: hostileText });
  const each = typeof additionalProperties === 'object' ? additionalProperties : {};
  const entries = fc.array(fc.tuple(keys, arbitraryOf(each, '', names)), { maxLength: 8 });
  return entries.map((all) => all.reduce<object>((object, [name, value]) => withOwn(object, name, value), {}));
}

function arrayOf({ prefixItems, items }: Schema, field: string, names: Names): fc.Arbitrary<unknown> {
  if (prefixItems) return fc.tuple(...prefixItems.map((each) => arbitraryOf(each, field, names)));
  return fc.array(arbitraryOf(typeof items === 'object' ? items : {}, field, names), { maxLength: MOST_ITEMS });
}

/** As JSON.parse does it: `__proto__` becomes a key like any other. */
function withOwn(object: object, key: string, value: unknown): object {
  return Object.defineProperty({ ...object }, key, { value, enumerable: true, configurable: true, writable: true });
}
