/**
 * What the door refuses of export tags, as against what it takes and holds the lot for: text that is no tag, a tag
 * twice in the list, a tag that is on another piece, and tags on goods that take none.
 */

import type { GoodsRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import type { TagFields } from '#db/lot/save.ts';
import { accept, allOf, type Refusal, type Result, refuse } from '#lib/result/result.ts';
import { decideTagUse } from '#lib/tag/check.ts';
import { parseTag } from '#lib/tag/number.ts';
import { lotOfTagInSale, placeOfTag } from './queries.ts';

type TypedTag = Pick<TagFields, 'tag' | 'condition'>;

interface TagsAt {
  readonly saleId: number;
  /** The lot whose tags these are, or null for a lot that is about to get its number. */
  readonly lotId: number | null;
  readonly goods: Pick<GoodsRow, 'name' | 'exportTag'>;
}

export function checkTags(book: Book, at: TagsAt, typed: readonly TypedTag[]): Result<TagFields[]> {
  if (typed.length > 0 && !at.goods.exportTag) {
    return refuse('malformed', `${at.goods.name} takes no export tag: leave the tags out, or check the goods.`, 'tags');
  }
  const fields = new Map<string, TagFields>();
  const problems: Refusal[] = [];
  for (const one of typed) {
    const checked = checkTag(book, at, one);
    if (!checked.ok) problems.push(checked);
    else if (fields.has(checked.value.tag)) problems.push(twice(checked.value.tag));
    else fields.set(checked.value.tag, checked.value);
  }
  return allOf(problems) ?? accept([...fields.values()]);
}

function twice(tag: string): Refusal {
  return refuse('taken', `Tag ${tag} is entered twice: enter the number on each piece once.`, 'tags');
}

function checkTag(book: Book, at: TagsAt, typed: TypedTag): Result<TagFields> {
  const parsed = parseTag(typed.tag);
  if (!parsed.ok) return { ...parsed, field: 'tags' };
  const tag = parsed.value.canonical;
  const condition = parsed.value.replacement && typed.condition === 'intact' ? 'replacement' : typed.condition;
  const place = placeOfTag(book, tag);
  if (!place || place.lotId === at.lotId) return accept({ tag, condition, cameBackFromId: null });
  // With two sales open, a piece can have gone home from this one and come back in the other: it is not in both.
  const here = lotOfTagInSale(book, tag, at.saleId);
  const inThisSale = here !== undefined && here.lotId !== at.lotId;
  const use = decideTagUse({ tag, ...place, ...(inThisSale ? here : {}), sameSale: inThisSale });
  return use.ok ? accept({ tag, condition, cameBackFromId: place.lotId }) : use;
}
