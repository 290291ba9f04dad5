import { describe, expect, it } from 'vitest';
import { PRICE_FIELDS, priceDataPackage, priceDataRows, withoutFormulas } from '#lib/price/data.ts';
import { goodsRanges } from '#lib/price/parts.ts';
import { offered } from '#tests/support/prices.ts';

const lots = [1, 2, 3, 4].map((at) =>
  offered({ ...{ seller: at, buyer: 10 + at, price: 100 * at, pieces: 10 }, section: at > 2 ? 'west' : 'east' }),
);
const rowsAt = (fewest: number) =>
  priceDataRows(
    '2025-26',
    goodsRanges(lots, fewest).map((range) => ({ ...range, name: 'Raccoon' })),
  );

describe('the open data', () => {
  it('has a row for the goods and one for each part', () => {
    expect(rowsAt(2).map((row) => row.join(' '))).toEqual([
      '2025-26 raccoon Raccoon piece goods all sales 4 40 1.00 1.75 2.50 3.25 4.00 2.50 4 0 false',
      '2025-26 raccoon Raccoon piece section east sales 2 20 1.00 1.00 1.50 2.00 2.00 1.50 2 0 false',
      '2025-26 raccoon Raccoon piece size east / no size sales 2 20 1.00 1.00 1.50 2.00 2.00 1.50 2 0 false',
      '2025-26 raccoon Raccoon piece grade east / no size / no grade sales 2 20 1.00 1.00 1.50 2.00 2.00 1.50 2 0 false',
      '2025-26 raccoon Raccoon piece section west sales 2 20 3.00 3.00 3.50 4.00 4.00 3.50 2 0 false',
      '2025-26 raccoon Raccoon piece size west / no size sales 2 20 3.00 3.00 3.50 4.00 4.00 3.50 2 0 false',
      '2025-26 raccoon Raccoon piece grade west / no size / no grade sales 2 20 3.00 3.00 3.50 4.00 4.00 3.50 2 0 false',
    ]);
  });

  it('has no row of goods that are withheld', () => {
    expect(rowsAt(5)).toEqual([]);
  });

  // OWASP, CSV Injection: =, +, -, @, tab and carriage return begin a formula in a spreadsheet.
  it('takes the force from a text that begins like a formula, and leaves figures alone', () => {
    const [plain = []] = rowsAt(2);
    const risky = plain.map((cell, at) => (at === 2 ? '=1+1' : at === 9 ? '-1.00' : cell));
    expect(withoutFormulas(risky)).toEqual(plain.map((cell, at) => (at === 2 ? "'=1+1" : at === 9 ? '-1.00' : cell)));
    expect(withoutFormulas(plain)).toEqual(plain);
  });
});

/**
 * What the Data Package standard 2.0 asks (datapackage.org: the profiles datapackage.json, dataresource.json and
 * tableschema.json), set down here by hand: resources, each with a name and one of path or data; a relative path
 * without a way up; fields with a name and a type of the standard; keys that are fields.
 */
describe('the descriptor', () => {
  const seasons = ['2025-26', '2024/25 late'];
  const described = priceDataPackage({ association: 'Lantern Ridge Fur Harvesters', currency: 'USD', seasons }) as {
    readonly $schema: string;
    readonly resources: readonly Record<string, unknown>[];
  };
  // The pattern that the published profile has for a path.
  const PATH = /^((?=[^./~])(?!file:)((?!\/\.\.\/)(?!\\)(?!:\/\/).)*|(http|ftp)s?:\/\/.*)$/;

  it('has a resource for each season, named once, at a path that the standard allows', () => {
    expect(described.$schema).toBe('https://datapackage.org/profiles/2.0/datapackage.json');
    expect(described.resources.map(({ name }) => name)).toEqual(['prices-2025-26', 'prices-2024-25-late']);
    for (const { path, type, data } of described.resources) {
      expect(path).toMatch(PATH);
      expect([type, data]).toEqual(['table', undefined]);
    }
  });

  it('has a Table Schema whose fields and keys are those of the rows', () => {
    const names = PRICE_FIELDS.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    const keys = ['season', 'goods', 'measure', 'covers', 'part'];
    for (const { schema } of described.resources) {
      expect(schema).toMatchObject({ fields: PRICE_FIELDS, primaryKey: keys });
      for (const key of keys) expect(names).toContain(key);
    }
    for (const { type } of PRICE_FIELDS) expect(['string', 'integer', 'number', 'boolean']).toContain(type);
  });

  it('is kept by every row: types, required cells, lists and keys', () => {
    const FORMS = { string: /^/, integer: /^-?\d+$/, number: /^-?\d+(\.\d+)?$/, boolean: /^(true|false)$/ };
    const keys = rowsAt(1).map((row) => {
      expect(row).toHaveLength(PRICE_FIELDS.length);
      for (const [at, { name, type, constraints = {} }] of PRICE_FIELDS.entries()) {
        const cell = row[at] ?? '';
        expect(cell, name).toMatch(FORMS[type]);
        if (constraints.required) expect(cell, name).not.toBe('');
        if (Array.isArray(constraints.enum)) expect(constraints.enum, name).toContain(cell);
      }
      return JSON.stringify([0, 1, 3, 4, 5].map((at) => row[at]));
    });
    expect(new Set(keys).size).toBe(keys.length);
  });
});
