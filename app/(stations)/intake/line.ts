/** A lot as it is being typed: which fields it needs, what is carried to the next line, and what goes to the book. */
import type { GoodsChoice } from '#db/queries/goods-choices.ts';
import type { LotAsTyped } from '#db/queries/intake-lots.ts';
import type { By } from '#lib/facts.ts';
import { accept, type Result } from '#lib/result.ts';
import type { LotTag } from '#lib/tag-check.ts';
import { withTagHead } from '#lib/tag-head.ts';
import { expandTags } from '#lib/tag-list.ts';

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
  ...{ goods: '', goodsText: '', by: '', count: '', weight: '', size: '', grade: '', section: '', form: 'put_up' },
  ...{ takenIn: '', minimum: '', withoutReserve: false, donated: false, note: '', tags: '', broken: [] },
};

/** The fields that Enter goes through, in the order of the form; all others are reached with Tab. */
export type Stop = 'goods' | 'count' | 'weight' | 'size' | 'grade' | 'tags';

export function byOf(line: Pick<Line, 'by'>, goods: GoodsChoice | undefined): By {
  return line.by === '' ? (goods?.by ?? 'piece') : line.by;
}

/** The fields that this line needs: sizes and grades only where the association has its own words for them. */
export function stopsOf(line: Line, goods: GoodsChoice | undefined): Stop[] {
  const byWeight = ['lb', 'oz'].includes(byOf(line, goods));
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

/** What stays for the next line: people bring furs of one section, and green goods come together. */
export function carriedFrom({ section, form, takenIn }: Line): Line {
  return { ...EMPTY_LINE, section, form, takenIn };
}

/** Whether anything was typed of it that is not carried over from the line before. */
export function isBegun({ withoutReserve, donated, ...line }: Line): boolean {
  const { goodsText, count, weight, size, grade, minimum, note, tags } = line;
  return (
    withoutReserve ||
    donated ||
    [goodsText, count, weight, size, grade, minimum, note, tags].some((typed) => typed.trim() !== '')
  );
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

/** The input of `lot.add` and `lot.amend`, apart from which lot or seller it is. */
export function lotInput(line: Line, goods: GoodsChoice | undefined): Result<Record<string, unknown>> {
  const { goodsText, tags, broken, by, ...said } = line;
  const read = goods?.exportTag === false ? accept([]) : tagsOf(line, goods?.tagHead ?? '');
  if (!read.ok) return read;
  return accept({ ...said, by: by === '' ? null : by, tags: read.value });
}
