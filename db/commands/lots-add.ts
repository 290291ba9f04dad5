import { eq, sql } from 'drizzle-orm';
import { z } from 'zod';
import { foldName } from '#lib/fold.ts';
import { parseLotNo } from '#lib/lot-number.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result.ts';
import { defineCommand, type Scene } from '../command.ts';
import { flag as flagCell } from '../exchange/columns.ts';
import { flag, partyNumber, rowId } from '../inputs.ts';
import { plainWords } from '../plain-words.ts';
import { type Bringing, mayBring } from '../queries/may-bring.ts';
import { saveLot } from '../save/lot.ts';
import { goods } from '../schema/index.ts';
import { freeNumber, holdsNow } from './lot-add.ts';
import { checkLot, type LotInput, lotShape } from './lot-fields.ts';

const cell = z.string().max(500, { error: 'Enter at most 500 characters.' }).default('');

/** A row of a list, its cells as they were typed, under the columns of `lots.csv`. */
const row = z.strictObject({
  ...{ lot_no: cell, seller_no: cell, goods: cell, by: cell, count: cell, weight: cell, size: cell, grade: cell },
  ...{ section: cell, minimum: cell, donated: cell, note: cell },
});
type Row = z.output<typeof row>;

const input = z.strictObject({
  saleId: rowId,
  sellerNo: partyNumber,
  /** Whether the list's own lot numbers are kept; otherwise every lot takes the next free one. */
  keepNumbers: flag.default(false),
  rows: z
    .array(row)
    .min(1, { error: 'The list has no row: paste it again.' })
    .max(500, { error: 'Enter at most 500 rows at once: divide the list.' }),
});

/** Checks in a whole list of lots under one seller number, or none of them: every problem is told by its row and column. */
export const lotsAdd = defineCommand({
  name: 'lots.add',
  summary: 'Checks in a list of lots under a seller number, all of them or none.',
  stations: ['intake', 'office'],
  input,
  run(scene, { saleId, sellerNo, keepNumbers, rows }) {
    const bringing = mayBring(scene.book, saleId, sellerNo);
    if (!bringing.ok) return bringing;
    const taken: { lotNo: string; onHold: boolean }[] = [];
    const problems: Refusal[] = [];
    for (const [at, one] of rows.entries()) {
      const added = addRow(scene, { ...bringing.value, keepNumbers }, one);
      if (added.ok) taken.push(added.value);
      else for (const wrong of [added, ...(added.also ?? [])]) problems.push(atRow(at, wrong));
    }
    const [first, ...also] = problems;
    if (first) return also.length === 0 ? first : { ...first, also };
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
}

function addRow(scene: Scene, at: At, said: Row): Result<{ lotNo: string; onHold: boolean }> {
  const { id: saleId } = at.sale;
  const { id: sellerId } = at.seller;
  const read = readRow(scene, at, said);
  if (!read.ok) return read;
  const typedNo = at.keepNumbers && said.lot_no !== '' ? parseLotNo(said.lot_no) : accept(null);
  const number = typedNo.ok ? freeNumber(scene, saleId, typedNo.value) : typedNo;
  if (!number.ok) return { ...number, field: 'lot_no' };
  const checked = checkLot(scene.book, { saleId, sellerId, lotId: null }, read.value);
  if (!checked.ok) return checked;
  const lotId = saveLot(scene, { saleId, sellerId, lotNo: number.value }, checked.value.fields);
  return accept({ lotNo: number.value, onHold: holdsNow(scene, lotId).length > 0 });
}

/** The cells as a line at the table says them, or everything that cannot be read. */
function readRow({ book }: Scene, { sale, seller }: At, said: Row): Result<LotInput> {
  const problems: Refusal[] = [];
  if (said.seller_no !== '' && said.seller_no !== String(seller.sellerNo)) {
    const message = `This row is of seller ${said.seller_no}: take it in at that number, or clear the cell.`;
    problems.push(refuse('not_allowed', message, 'seller_no'));
  }
  const known = goodsCalled(book, sale.id, said.goods);
  if (said.goods !== '' && known === undefined) {
    const message = `This sale takes no goods called ${said.goods}: write their short name.`;
    problems.push(refuse('unknown', message, 'goods'));
  }
  const donated = flagCell.read(said.donated.toLowerCase());
  if (!donated.ok) problems.push({ ...donated, field: 'donated' });
  const { count, weight, size, grade, section, minimum, note } = said;
  const words = { count, weight, size, grade, section, minimum, note };
  const by = said.by === '' ? null : said.by.toLowerCase();
  const line = { ...words, goods: known ?? said.goods, by, donated: donated.ok && donated.value, tags: [] };
  const parsed = lotShape.safeParse(line, { error: plainWords });
  for (const issue of parsed.error?.issues ?? []) {
    problems.push(refuse('malformed', issue.message, issue.path.join('.')));
  }
  const [first, ...also] = problems;
  if (first) return { ...first, also };
  return parsed.success ? accept(parsed.data) : refuse('malformed', 'Check this row.', 'goods');
}

/** The short name of goods that a list calls by that or by their name; undefined where there are none, or several. */
function goodsCalled(book: Scene['book'], saleId: number, called: string): string | undefined {
  const find = book.prepared('names of goods of sale', (db) =>
    db
      .select({ code: goods.goods, name: goods.name })
      .from(goods)
      .where(eq(goods.saleId, sql.placeholder('saleId')))
      .prepare(),
  );
  const all = find.all({ saleId });
  const exact = all.find(({ code }) => code === called);
  if (exact) return exact.code;
  const folded = foldName(called);
  const [one, ...others] = all.filter(({ code, name }) => [code, name].some((word) => foldName(word) === folded));
  return one && others.length === 0 ? one.code : undefined;
}
