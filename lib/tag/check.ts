/** Whether a lot bears the export tags it must: one good tag a piece, of its own species and State. */
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { countWords } from '#lib/result/text.ts';
import type { Goods, TagCondition } from '#lib/sale/facts.ts';
import { parseTag, type Tag } from './number.ts';

export type TagFaultCode =
  | 'tag_missing'
  | 'tag_extra'
  | 'tag_doubled'
  | 'tag_broken'
  | 'tag_other_species'
  | 'tag_other_state'
  | 'tag_not_taken'
  | 'tag_unreadable'
  | 'count_missing';

export interface TagFault {
  readonly code: TagFaultCode;
  readonly message: string;
  /** The tag it is about, or null when it is about their number. */
  readonly tag: string | null;
}

export interface LotTag {
  /** In the spelling of `parseTag`. */
  readonly tag: string;
  readonly condition: TagCondition;
}

export interface TagCheck {
  readonly goods: Pick<Goods, 'name' | 'exportTag' | 'tagSpeciesCode'>;
  readonly lot: { readonly lotNo?: string; readonly count: number | null };
  readonly tags: readonly LotTag[];
  /** ISO 3166-2 regions whose State may stand on a tag, such as US-WY; none: the State is not checked. */
  readonly regions: readonly string[];
  /** Whether a tagged lot without a count is a fault of its own. */
  readonly pieceCountRequired: boolean;
}

/**
 * What stands in the way of putting the lot up, one fault a sentence; empty when nothing does. A broken tag is not good
 * until a replacement is entered. A federal replacement tag is good and shows neither State nor species.
 */
export function decideTags(check: TagCheck): TagFault[] {
  const { goods, tags } = check;
  const faults: TagFault[] = [];
  const seen = new Set<string>();
  for (const { tag } of tags) {
    if (!goods.exportTag) {
      const message = `${lotOf(check)} is ${goods.name}, which takes no export tag: take ${tag} off, or check the lot's goods.`;
      faults.push({ code: 'tag_not_taken', tag, message });
    } else if (seen.has(tag)) {
      const message = `${lotOf(check)}: tag ${tag} is entered twice: take one off and enter the number on the other piece.`;
      faults.push({ code: 'tag_doubled', tag, message });
    } else faults.push(...faultsOfTag(check, tag));
    seen.add(tag);
  }
  return goods.exportTag ? [...faults, ...faultsOfNumber(check)] : faults;
}

function faultsOfTag(check: TagCheck, text: string): TagFault[] {
  const tag = parseTag(text);
  if (!tag.ok) return [{ code: 'tag_unreadable', tag: text, message: `${lotOf(check)}: ${tag.message}` }];
  return [otherSpecies(check, tag.value), otherState(check, tag.value)].filter((fault) => fault !== null);
}

function otherSpecies(check: TagCheck, tag: Tag): TagFault | null {
  const { name, tagSpeciesCode } = check.goods;
  if (tag.species === null || tagSpeciesCode === '' || tag.species === tagSpeciesCode.toUpperCase()) return null;
  const message = `${lotOf(check)} is ${name}, but tag ${tag.canonical} is of species ${tag.species}, not ${tagSpeciesCode}: check the number on the piece, or the lot's goods.`;
  return { code: 'tag_other_species', tag: tag.canonical, message };
}

function otherState(check: TagCheck, tag: Tag): TagFault | null {
  const states = check.regions.map((region) => region.slice(region.indexOf('-') + 1).toUpperCase());
  if (tag.state === null || states.length === 0 || states.includes(tag.state)) return null;
  const message = `${lotOf(check)} may bear tags of ${states.join(' or ')}, but tag ${tag.canonical} is of ${tag.state}: check the number on the piece, or where it was taken.`;
  return { code: 'tag_other_state', tag: tag.canonical, message };
}

function faultsOfNumber({ lot, tags, pieceCountRequired }: TagCheck): TagFault[] {
  const { count } = lot;
  const which = lotOf({ lot });
  if (count === null) {
    const message = `${which} takes one export tag a piece: enter the number of pieces.`;
    return pieceCountRequired ? [{ code: 'count_missing', tag: null, message }] : [];
  }
  const good = new Set(tags.filter((tag) => tag.condition !== 'broken').map(({ tag }) => tag));
  const bare = count - good.size;
  // Only as many broken tags stand in the way as pieces are left without a good one: the others have been replaced.
  const unreplaced = new Set(tags.filter(({ tag }) => !good.has(tag)).map(({ tag }) => tag));
  const broken = [...unreplaced].slice(0, Math.max(0, bare));
  const faults = broken.map((tag): TagFault => {
    const message = `${which}: tag ${tag} is broken: have the agency's officer replace it, then enter the replacement's number.`;
    return { code: 'tag_broken', tag, message };
  });
  const has = `${which} has ${countWords(count, 'piece')} and ${countWords(good.size, 'good export tag')}`;
  const missing = bare - broken.length;
  if (missing > 0) {
    const and = broken.length > 0 ? ` and ${broken.length} broken` : '';
    const message = `${has}${and}: have the agency's officer attach ${missing} more, then enter ${missing === 1 ? 'its number' : 'their numbers'}.`;
    faults.push({ code: 'tag_missing', tag: null, message });
  }
  if (bare < 0) {
    const message = `${has}: count the pieces again, or take off ${-bare} that ${bare === -1 ? 'is' : 'are'} not on a piece.`;
    faults.push({ code: 'tag_extra', tag: null, message });
  }
  return faults;
}

function lotOf({ lot }: Pick<TagCheck, 'lot'>): string {
  return lot.lotNo === undefined ? 'This lot' : `Lot ${lot.lotNo}`;
}

/** A tag stands once in the whole book, over all years, unless its piece went home unsold and comes back. */
export interface EarlierTagUse {
  readonly tag: string;
  readonly lotNo: string;
  readonly saleName: string;
  readonly sellerNo: number;
  readonly wentHome: boolean;
  /** True where the other lot is in the sale at hand: a piece is never in two lots of one sale. */
  readonly sameSale: boolean;
}

export function decideTagUse(use: EarlierTagUse): Result<'came_back'> {
  if (use.wentHome && !use.sameSale) return accept('came_back');
  const where = use.sameSale ? `lot ${use.lotNo}` : `lot ${use.lotNo} of ${use.saleName}`;
  const message = `Tag ${use.tag} is already on ${where} (seller number ${use.sellerNo}): check the number on the piece. If both pieces show it, call the agency's officer.`;
  return refuse('taken', message, 'tags');
}
