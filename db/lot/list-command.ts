import * as z from 'zod';
import { type CommandContext, defineCommand } from '#db/book/command.ts';
import type { GoodsRow } from '#db/book/find.ts';
import { flag, partyNumber, plainWords, rowId } from '#db/book/inputs.ts';
import { LIST_COLUMNS } from '#db/exchange/lot-list.ts';
import { type Bringing, mayBring } from '#db/person/may-bring.ts';
import { goodsCalled } from '#db/sale/goods.ts';
import { columnName, fieldNames, inFolder, recordOf } from '#lib/field/fields.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import { parseLotNo } from '#lib/lot/number.ts';
import { accept, allOf, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import { expandTags, tagRanges } from '#lib/tag/list.ts';
import { freeNumber, holdsNow } from './commands.ts';
import { checkLot, type LotInput, lotShape } from './fields.ts';
import { saveLot, saveTags } from './save.ts';

const cell = z.string().max(500, { error: 'Enter at most 500 characters.' }).default('');
/** As many tags as a lot may have, each written out. */
const tagCell = z.string().max(15_000, { error: 'Write running tag numbers as a range: 000101-000118.' }).default('');

/** A row of a list, its cells as they were typed, under the columns of `lots.csv` and of the tags. */
const row = z.strictObject(recordOf(LIST_COLUMNS, (column) => (column === 'tags' ? tagCell : cell)));
type Row = z.output<typeof row>;
const COLUMN_FIELDS = fieldNames(inFolder(LOT_FIELDS));

/** Checks in a whole list of lots under one seller number, or none of them: every problem is told by its row and column. */
export const lotsAdd = defineCommand({
  name: 'lots.add',
  summary: 'Checks in a list of lots under a seller number, all of them or none.',
  logLabel: 'A list checked in',
  stations: ['intake', 'office'],
  input: z.strictObject({
    saleId: rowId,
    sellerNo: partyNumber,
    /** Whether the list's own lot numbers are kept; otherwise every lot takes the next free one. */
    keepNumbers: flag.default(false),
    rows: z
      .array(row)
      .min(1, { error: 'The list has no row: paste it again.' })
      .max(500, { error: 'Enter at most 500 rows at once: divide the list.' }),
  }),
  run(context, { saleId, sellerNo, keepNumbers, rows }) {
    const bringing = mayBring(context.book, saleId, sellerNo);
    if (!bringing.ok) return bringing;
    const taken: { lotNo: string; onHold: boolean }[] = [];
    const problems: Refusal[] = [];
    const above = new Set<string>();
    for (const [at, one] of rows.entries()) {
      const added = addRow(context, { ...bringing.value, keepNumbers, above }, one);
      if (added.ok) taken.push(added.value);
      else for (const wrong of [added, ...(added.also ?? [])]) problems.push(atRow(at, wrong));
    }
    const refusal = allOf(problems);
    if (refusal) return refusal;
    const onHold = taken.filter((lot) => lot.onHold).map(({ lotNo }) => lotNo);
    return accept({ lots: taken.map(({ lotNo }) => lotNo), onHold });
  },
});

/** `rows.0.count` is the count of the first row. */
function atRow(at: number, { code, message, field }: Refusal): Refusal {
  return refuse(code, message, `rows.${at}.${field ?? 'goods'}`);
}

interface At extends Bringing {
  readonly keepNumbers: boolean;
  /** The tags of the rows above, also of those that are wrong for another reason. */
  readonly above: Set<string>;
}

function addRow(context: CommandContext, at: At, said: Row): Result<{ lotNo: string; onHold: boolean }> {
  const { id: saleId } = at.sale;
  const { id: sellerId } = at.seller;
  const read = readRow(context, at, said);
  if (!read.ok) return read;
  const typedNo = at.keepNumbers && said.lot_no !== '' ? parseLotNo(said.lot_no) : accept(null);
  const number = typedNo.ok ? freeNumber(context, saleId, typedNo.value) : typedNo;
  if (!number.ok) return { ...number, field: 'lot_no' };
  const checked = checkLot(context.book, { saleId, sellerId, lotId: null }, read.value);
  if (!checked.ok) return checked;
  const lotId = saveLot(context, { saleId, sellerId, lotNo: number.value }, checked.value.fields);
  saveTags(context, lotId, checked.value.tags);
  return accept({ lotNo: number.value, onHold: holdsNow(context, lotId).length > 0 });
}

/** The cells as a line at the table says them, or everything that cannot be read. */
function readRow({ book }: CommandContext, { sale, seller, above }: At, said: Row): Result<LotInput> {
  const problems: Refusal[] = [];
  if (said.seller_no !== '' && said.seller_no !== String(seller.sellerNo)) {
    const message = `This row is of seller ${said.seller_no}: take it in at that number, or clear the cell.`;
    problems.push(refuse('not_allowed', message, 'seller_no'));
  }
  const known = goodsCalled(book, sale.id, said.goods);
  if (said.goods !== '' && known === undefined) {
    const message = `This sale takes no goods called ${said.goods}: write their short name, or have the office add them on the Sale page, under Goods.`;
    problems.push(refuse('unknown', message, 'goods'));
  }
  const tags = readTags(said.tags, known, above);
  if (!tags.ok) problems.push(tags);
  const by = said.by === '' ? null : said.by.toLowerCase();
  const typed = recordOf(COLUMN_FIELDS, (name) => {
    const text = said[columnName(name)];
    const { column } = LOT_FIELDS[name];
    if (column.as !== 'flag') return text;
    const read = column.read(text.toLowerCase());
    if (!read.ok) problems.push({ ...read, field: columnName(name) });
    return read.ok && read.value;
  });
  const line = { ...typed, goods: known?.goods ?? said.goods, by, tags: tags.ok ? tags.value : [] };
  const parsed = lotShape.safeParse(line, { error: plainWords });
  for (const issue of parsed.error?.issues ?? []) {
    problems.push(refuse('malformed', issue.message, issue.path.join('.')));
  }
  const checked = parsed.success ? accept(parsed.data) : refuse('malformed', 'Check this row.', 'goods');
  return allOf(problems) ?? checked;
}

/** The tags of a cell, each in its canonical spelling; a list knows intact ones and replacements only. */
function readTags(typed: string, goods: GoodsRow | undefined, above: Set<string>): Result<{ tag: string }[]> {
  if (typed === '') return accept([]);
  if (goods && !goods.exportTag) {
    return refuse('malformed', `${goods.name} takes no export tag: clear the cell, or check the goods.`, 'tags');
  }
  const expanded = expandTags(typed);
  if (!expanded.ok) return { ...expanded, field: 'tags' };
  const tags = expanded.value.map(({ canonical }) => canonical);
  const again = [...new Set(tags.filter((tag) => above.has(tag)))];
  for (const tag of tags) above.add(tag);
  if (again.length === 0) return accept(tags.map((tag) => ({ tag })));
  const words = tagRanges(again.map((tag) => ({ tag, condition: 'intact' }))).join(', ');
  return refuse('taken', `${words}: also in a row above. Enter the number on each piece once.`, 'tags');
}
