import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { allCommands } from '#db/commands.ts';

/**
 * Every text, list and number that any command takes has a limit, read out of the schemas as JSON Schema has it: a new
 * command without one fails here. A text of a fixed form, or one of a few words, is limited by that.
 */
interface Schema {
  readonly type?: string;
  readonly [key: string]: unknown;
}

const BOUNDS: Readonly<Record<string, readonly string[]>> = {
  string: ['maxLength', 'enum', 'const', 'format', 'pattern'],
  array: ['maxItems'],
  integer: ['maximum'],
  number: ['maximum'],
};

/** The places within a schema that are not limited. */
function limitless(schema: unknown, place: string): string[] {
  if (Array.isArray(schema)) return schema.flatMap((one, at) => limitless(one, `${place}[${at}]`));
  if (typeof schema !== 'object' || schema === null) return [];
  const { type } = schema as Schema;
  const bounds = typeof type === 'string' ? BOUNDS[type] : undefined;
  const own = bounds && !bounds.some((bound) => bound in schema) ? [place] : [];
  return [...own, ...Object.entries(schema).flatMap(([key, value]) => limitless(value, `${place}.${key}`))];
}

describe('the input of every command', () => {
  it.each(allCommands().map(({ name, input }) => [name, input] as const))(
    '%s has a limit in each place',
    (_, input) => {
      expect(limitless(z.toJSONSchema(input, { io: 'input', unrepresentable: 'any' }), 'input')).toEqual([]);
    },
  );

  it('would be found without one', () => {
    const loose = z.strictObject({ name: z.string(), list: z.array(z.string().max(3)) });
    expect(limitless(z.toJSONSchema(loose), 'input')).toEqual(['input.properties.name', 'input.properties.list']);
  });
});
