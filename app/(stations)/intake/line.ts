/** A lot as it is being typed: which fields it needs, what is carried to the next line, and what goes to the book. */
import type { GoodsChoice } from '#db/sale/goods.ts';
import { emptyTyped, fieldNames, pick } from '#lib/field/fields.ts';
import { fieldsWith, LOT_FIELDS, type LotAsTyped } from '#lib/lot/fields.ts';
import { accept, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import type { By } from '#lib/sale/facts.ts';
import type { LotTag } from '#lib/tag/check.ts';
import { askTagYear, tagHead, withTagHead } from '#lib/tag/head.ts';
import { expandTags } from '#lib/tag/list.ts';

export interface Line extends Omit<LotAsTyped, 'by'> {
  /** Empty: what is usual for the goods. */
  readonly by: By | '';
  /** What stands in the box of the goods while they are searched. */
  readonly goodsText: string;
  readonly tags: string;
  /** The tags, in their canonical spelling, that are broken on the piece. */
  readonly broken: readonly string[];
}

export const EMPTY_LINE: Line = {
  ...emptyTyped(LOT_FIELDS),
  ...{ goods: '', goodsText: '', by: '', tags: '', broken: [] },
};

const CARRIED = fieldNames(fieldsWith('nextRow', 'carried'));
const EMPTIED = fieldNames(fieldsWith('nextRow', 'emptied'));

/** The fields of the line in the order in which they are drawn; what is folded away behind them is saved by Enter. */
export const LINE_FIELDS = [...fieldNames(fieldsWith('asked', 'row')), 'tags'] as const;
export type LineField = (typeof LINE_FIELDS)[number];

/** The fields that a line may need, and that Enter stops at; all others are reached with Tab. */
export type Stop = 'goods' | 'count' | 'weight' | 'size' | 'grade' | 'tags';

export function byOf(line: Pick<Line, 'by'>, goods: GoodsChoice | undefined): By {
  return line.by === '' ? (goods?.by ?? 'piece') : line.by;
}

function isByWeight(line: Line, goods: GoodsChoice | undefined): boolean {
  return ['lb', 'oz'].includes(byOf(line, goods));
}

/** Whether the form has the field for these goods. What is in a field that it does not have is not sent. */
export function isDrawn(field: LineField, line: Line, goods: GoodsChoice | undefined): boolean {
  if (field === 'weight') return isByWeight(line, goods);
  return field !== 'tags' || goods?.exportTag === true;
}

/** The fields that this line needs: sizes and grades only where the association has its own words for them. */
export function stopsOf(line: Line, goods: GoodsChoice | undefined): Stop[] {
  const byWeight = isByWeight(line, goods);
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

/** Where Enter goes from any field: to the next one behind it that the line needs. Undefined where it saves the line. */
export function stopAfter(from: LineField, line: Line, goods: GoodsChoice | undefined): Stop | undefined {
  return stopsOf(line, goods).find((stop) => LINE_FIELDS.indexOf(stop) > LINE_FIELDS.indexOf(from));
}

/** What stays for the next line: people bring furs of one section, and green goods come together. */
export function carriedFrom(line: Line): Line {
  return { ...EMPTY_LINE, ...pick(line, CARRIED) };
}

/** Whether anything was typed of it that is not carried over from the line before. */
export function isBegun(line: Line): boolean {
  const typed = [line.goodsText, line.tags, ...EMPTIED.map((name) => line[name])];
  return typed.some((one) => (typeof one === 'string' ? one.trim() !== '' : one));
}

/** The line once more; a tag is on one piece only, so tags are never repeated. */
export function repeated(line: Line): Line {
  return { ...line, tags: '', broken: [] };
}

export function lineOf(typed: LotAsTyped, name: string): Line {
  return { ...EMPTY_LINE, ...typed, goodsText: name };
}

/** The tags of the line in their canonical spelling, each with its condition. */
export function tagsOf(line: Pick<Line, 'tags' | 'broken'>, head: string): Result<LotTag[]> {
  if (line.tags.trim().replace(/^[,;\s]+|[,;\s]+$/g, '') === '') return accept([]);
  const expanded = expandTags(withTagHead(line.tags, head));
  if (!expanded.ok) return { ...expanded, field: 'tags' };
  return accept(
    expanded.value.map(({ canonical, replacement }) => ({
      tag: canonical,
      condition: line.broken.includes(canonical) ? 'broken' : replacement ? 'replacement' : 'intact',
    })),
  );
}

/** What stands before a number alone; empty where that is not known. */
export function headOf({ takenIn }: Pick<Line, 'takenIn'>, goods: GoodsChoice | undefined): string {
  return goods?.seasonTags ? tagHead(goods.seasonTags, takenIn) : '';
}

/** The input of `lot.add` and `lot.amend`, apart from which lot or seller it is. */
export function lotInput(line: Line, goods: GoodsChoice | undefined): Result<LotSaid> {
  if (!goods) return noSuchGoods(line);
  const { goodsText, tags, broken, by, weight, ...said } = line;
  const read = goods.exportTag ? tagsOf(line, headOf(line, goods)) : accept([]);
  if (!read.ok) return read;
  // A weight may be left from goods that were chosen before: nobody sees it, so nobody says it.
  const seen = isDrawn('weight', line, goods) ? weight : '';
  return accept({ ...said, weight: seen, by: by === '' ? null : by, tags: read.value });
}

interface LotSaid extends Omit<Line, 'goodsText' | 'broken' | 'by' | 'tags'> {
  readonly by: By | null;
  readonly tags: readonly LotTag[];
}

function noSuchGoods({ goodsText }: Line): Refusal {
  const called = goodsText.trim();
  if (called === '') return refuse('missing', 'Choose the goods: two or three letters find them.', 'goods');
  const message = `“${called}” is not on this sale’s list. Choose from the list, or have the office add it on the Sale page, under Goods.`;
  return refuse('unknown', message, 'goods');
}

/** Asks about the year of tags that the lot does not have yet; null where nothing is asked. */
export function askYear(line: Line, goods: GoodsChoice | undefined, had: readonly string[]): Refusal | null {
  const read = tagsOf(line, headOf(line, goods));
  if (!read.ok || !goods?.seasonTags) return null;
  const tags = read.value.map(({ tag }) => tag).filter((tag) => !had.includes(tag));
  return askTagYear({ season: goods.seasonTags, takenIn: line.takenIn, tags });
}
