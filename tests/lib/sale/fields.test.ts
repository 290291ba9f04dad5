/** The lists of fields, and what follows from each of them. */
import { describe, expect, it } from 'vitest';
import { tableText } from '#db/exchange/csv.ts';
import { listColumns } from '#db/exchange/lot-list.ts';
import { TABLE_NAMES, TABLES } from '#db/exchange/tables.ts';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { type AnyFields, columnsOf, laterColumns } from '#lib/field/fields.ts';
import { type FieldKind, KIND } from '#lib/field/kinds.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import { PERSON_FIELDS } from '#lib/person/fields.ts';
import { GOODS_FIELDS } from '#lib/sale/goods-fields.ts';
import { RATE_FIELDS, SALE_FIELDS, TERM_FIELDS } from '#lib/sale/terms-fields.ts';
import { read } from '#tests/tidy/tree.ts';

const ALL: readonly AnyFields[] = [
  ...[LOT_FIELDS, PERSON_FIELDS, BUYER_FIELDS, GOODS_FIELDS],
  ...[SALE_FIELDS, RATE_FIELDS, TERM_FIELDS],
];
const said = { kind: KIND.words, empty: '', column: KIND.words, label: 'A fact' } as const;

describe('a list of fields', () => {
  it('means, where nothing is said, what its own kind reads and writes', () => {
    for (const [name, { kind, empty }] of ALL.flatMap((fields) => Object.entries(fields))) {
      if (empty === undefined) continue;
      expect(kind.read((kind as FieldKind<unknown>).write(empty)), name).toEqual({ ok: true, value: empty });
    }
  });

  it('has each of its columns named in docs/exchange.md, in the order of the file', () => {
    const page = read('docs/exchange.md');
    for (const name of TABLE_NAMES) {
      const { file, columns } = TABLES[name];
      expect(page).toContain(`| \`${file}\` | ${Object.keys(columns).join(', ')} |`);
    }
  });

  it('may grow: a later column stands only in a file that has something to say there, and moves none in a list', () => {
    const fields = { size: said, county: { ...said, later: true }, note: said };
    const [columns, later] = [columnsOf(fields), laterColumns(fields)];
    const row = { size: 'L', county: '', note: 'torn' };
    expect(tableText({ columns, later }, [row])).toBe('size,note\r\nL,torn\r\n');
    expect(tableText({ columns, later }, [row, { ...row, county: 'Park' }])).toBe(
      'size,county,note\r\nL,,torn\r\nL,Park,torn\r\n',
    );
    expect(listColumns(Object.keys(columns), later)).toEqual(['size', 'note', 'tags']);
  });
});
