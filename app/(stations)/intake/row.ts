/** A lot as it is being typed: which fields it needs, what is carried to the next row, and what goes to the book. */
import type { GoodsChoice } from '#db/sale/goods.ts';
import { emptyTyped, fieldNames, pick } from '#lib/field/fields.ts';
import { fieldsWith, LOT_FIELDS, type LotAsTyped } from '#lib/lot/fields.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import type { By } from '#lib/sale/facts.ts';
import type { LotTag } from '#lib/tag/check.ts';
import { askTagYear, tagHead, withTagHead } from '#lib/tag/head.ts';
import { expandTags } from '#lib/tag/list.ts';

export interface IntakeRow extends Omit<LotAsTyped, 'by'> {
  /** Empty: what is usual for the goods. */
  readonly by: By | '';
  /** What stands in the box of the goods while they are searched. */
  readonly goodsText: string;
  readonly tags: string;
  /** The tags, in their canonical spelling, that are broken on the piece. */
  readonly broken: readonly string[];
}

export const EMPTY_ROW: IntakeRow = {
  ...emptyTyped(LOT_FIELDS),
  ...{ goods: '', goodsText: '', by: '', tags: '', broken: [] },
};

const CARRIED = fieldNames(fieldsWith('nextRow', 'carried'));
const EMPTIED = fieldNames(fieldsWith('nextRow', 'emptied'));

/** The fields of the row in the order in which they are drawn; what is folded away behind them is saved by Enter. */
export const ROW_FIELDS = [...fieldNames(fieldsWith('asked', 'row')), 'tags'] as const;
export type RowField = (typeof ROW_FIELDS)[number];

/** The fields that a row may need, and that Enter stops at; all others are reached with Tab. */
export type Stop = 'goods' | 'count' | 'weight' | 'size' | 'grade' | 'tags';

export function byOf(row: Pick<IntakeRow, 'by'>, goods: GoodsChoice | undefined): By {
  return row.by === '' ? (goods?.by ?? 'piece') : row.by;
}

function isByWeight(row: IntakeRow, goods: GoodsChoice | undefined): boolean {
  return ['lb', 'oz'].includes(byOf(row, goods));
}

/** Whether the form has the field for these goods. What is in a field that it does not have is not sent. */
export function isDrawn(field: RowField, row: IntakeRow, goods: GoodsChoice | undefined): boolean {
  if (field === 'weight') return isByWeight(row, goods);
  return field !== 'tags' || goods?.exportTag === true;
}

/** The fields that this row needs: sizes and grades only where the association has its own words for them. */
export function stopsOf(row: IntakeRow, goods: GoodsChoice | undefined): Stop[] {
  const byWeight = isByWeight(row, goods);
  const stops: readonly (Stop | false)[] = [
    'goods',
    (!byWeight || goods?.exportTag === true) && 'count',
    byWeight && 'weight',
    (goods?.sizes.length ?? 0) > 0 && 'size',
    (goods?.grades.length ?? 0) > 0 && 'grade',
    goods?.exportTag === true && 'tags',
  ];
  return stops.filter((stop): stop is Stop => stop !== false);
}

/** Where Enter goes from any field: to the next one behind it that the row needs. Undefined where it saves the row. */
export function stopAfter(from: RowField, row: IntakeRow, goods: GoodsChoice | undefined): Stop | undefined {
  return stopsOf(row, goods).find((stop) => ROW_FIELDS.indexOf(stop) > ROW_FIELDS.indexOf(from));
}

/** What stays for the next row: people bring furs of one section, and green goods come together. */
export function carriedFrom(row: IntakeRow): IntakeRow {
  return { ...EMPTY_ROW, ...pick(row, CARRIED) };
}

/** Whether anything was typed of it that is not carried over from the row before. */
export function isBegun(row: IntakeRow): boolean {
  const typed = [row.goodsText, row.tags, ...EMPTIED.map((name) => row[name])];
  return typed.some((one) => (typeof one === 'string' ? one.trim() !== '' : one));
}

/** The row once more; a tag is on one piece only, so tags are never repeated. */
export function repeated(row: IntakeRow): IntakeRow {
  return { ...row, tags: '', broken: [] };
}

export function toRow(typed: LotAsTyped, name: string): IntakeRow {
  return { ...EMPTY_ROW, ...typed, goodsText: name };
}

/** The tags of the row in their canonical spelling, each with its condition. */
export function tagsOf(row: Pick<IntakeRow, 'tags' | 'broken'>, head: string): Result<LotTag[]> {
  if (row.tags.trim().replace(/^[,;\s]+|[,;\s]+$/g, '') === '') return accept([]);
  const expanded = expandTags(withTagHead(row.tags, head));
  if (!expanded.ok) return { ...expanded, field: 'tags' };
  return accept(
    expanded.value.map(({ canonical, replacement }) => ({
      tag: canonical,
      condition: row.broken.includes(canonical) ? 'broken' : replacement ? 'replacement' : 'intact',
    })),
  );
}

/** What stands before a number alone; empty where that is not known. */
export function headOf({ takenIn }: Pick<IntakeRow, 'takenIn'>, goods: GoodsChoice | undefined): string {
  return goods?.seasonTags ? tagHead(goods.seasonTags, takenIn) : '';
}

/** The input of `lot.add` and `lot.amend`, apart from which lot or seller it is. */
export function lotInput(row: IntakeRow, goods: GoodsChoice | undefined): Result<LotSaid> {
  if (!goods) return noSuchGoods(row);
  const { goodsText, tags, broken, by, weight, ...said } = row;
  const read = goods.exportTag ? tagsOf(row, headOf(row, goods)) : accept([]);
  if (!read.ok) return read;
  // A weight may be left from goods that were chosen before: nobody sees it, so nobody says it.
  const seen = isDrawn('weight', row, goods) ? weight : '';
  return accept({ ...said, weight: seen, by: by === '' ? null : by, tags: read.value });
}

interface LotSaid extends Omit<IntakeRow, 'goodsText' | 'broken' | 'by' | 'tags'> {
  readonly by: By | null;
  readonly tags: readonly LotTag[];
}

function noSuchGoods({ goodsText }: IntakeRow): Refusal {
  const called = goodsText.trim();
  if (called === '') return refuse('missing', 'Choose the goods: two or three letters find them.', 'goods');
  const message = `“${called}” is not on this sale’s list. Choose from the list, or have the office add it on the Sale page, under Goods.`;
  return refuse('unknown', message, 'goods');
}

/** Asks about the year of tags that the lot does not have yet; null where nothing is asked. */
export function askYear(row: IntakeRow, goods: GoodsChoice | undefined, had: readonly string[]): Refusal | null {
  const read = tagsOf(row, headOf(row, goods));
  if (!read.ok || !goods?.seasonTags) return null;
  const tags = read.value.map(({ tag }) => tag).filter((tag) => !had.includes(tag));
  return askTagYear({ season: goods.seasonTags, takenIn: row.takenIn, tags });
}
