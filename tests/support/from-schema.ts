/** Random inputs from the JSON Schema of a command: mostly such as a screen sends, with something hostile in places. */
import fc from 'fast-check';
import { hostileText, hostileValue } from './hostile.ts';

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
