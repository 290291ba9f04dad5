/** Whether the tags of a folder may come into the book, where each tag stands once over all years. */
import { decideTagUse } from '#lib/decide-tag-use.ts';
import { accept, type Result } from '#lib/result.ts';
import type { Book } from '../open.ts';
import { saleById } from '../queries/find.ts';
import { placeOfTag } from '../queries/tags.ts';

/** Where the book knows the same piece from: an earlier sale it went home from, or a later one it came to. */
export interface TagUse {
  readonly cameBackFromId: number | null;
  readonly wentToId: number | null;
}

export interface TagOfFolder {
  readonly tag: string;
  readonly heldOn: string;
  /** Whether the folder's lot was passed or withdrawn. */
  readonly wentHome: boolean;
}

/** Years may come into the book in any order, so a piece may be there from a year after the folder's. */
export function tagUse(book: Book, { tag, heldOn, wentHome }: TagOfFolder): Result<TagUse> {
  const place = placeOfTag(book, tag);
  if (place === undefined) return accept({ cameBackFromId: null, wentToId: null });
  const later = (saleById(book, place.saleId)?.heldOn ?? '') > heldOn;
  const use = decideTagUse({ tag, ...place, sameSale: false, wentHome: later ? wentHome : place.wentHome });
  if (!use.ok) return use;
  return accept(
    later ? { cameBackFromId: null, wentToId: place.lotId } : { cameBackFromId: place.lotId, wentToId: null },
  );
}
