/**
 * What may be said of an export tag after its lot was called. The hammer took the tags as they were, so nothing of that
 * is undone: a tag that breaks afterwards awaits its replacement, and its piece is not exportable until it has one.
 */
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { SheetTag } from '#lib/settlement/parties.ts';

/** `whole` takes back what was said of the tag after the hammer. */
export const FINDINGS = ['broken', 'replaced', 'whole'] as const;
export type Finding = (typeof FINDINGS)[number];

/** A tag of a called lot: good, waiting for its replacement, replaced since the hammer, or broken before it. */
export type TagState = 'good' | 'waiting' | 'replaced' | 'broken_before';

export interface MendContext {
  readonly lotNo: string;
  readonly tag: string;
  /** Null where the lot bears no such tag. */
  readonly state: TagState | null;
  readonly replacedBy: string | null;
  /** True where something was said of that one too, which is to be taken back first. */
  readonly replacementMended: boolean;
  readonly called: boolean;
  /** True where the piece came back to a later sale, so that the tag stands on another lot now. */
  readonly movedOn: boolean;
}

export function decideMend(context: MendContext, found: Finding): Result<null> {
  const { lotNo, tag, state, called, movedOn } = context;
  if (!called) {
    return refuse('wrong_stage', `Lot ${lotNo} is still to be called: put its tags right on its own page.`, 'lotNo');
  }
  if (state === null) return refuse('unknown', `Lot ${lotNo} bears no tag ${tag}: check the number.`, 'tag');
  if (movedOn) {
    const message = `The piece with tag ${tag} came back to another sale: put the tag right on its lot there.`;
    return refuse('conflict', message, 'tag');
  }
  if (found === 'whole') return decideWhole(context);
  if (state === 'replaced') {
    const message = `Tag ${tag} was replaced by ${context.replacedBy}: choose that one, or take the replacement back first.`;
    return refuse('already', message, 'tag');
  }
  if (state === 'broken_before') {
    const message = `Tag ${tag} was broken when the lot was called: choose the tag that is on the piece.`;
    return refuse('already', message, 'tag');
  }
  if (found === 'broken' && state === 'waiting') {
    return refuse('already', `Tag ${tag} is marked as broken: enter its replacement when there is one.`, 'tag');
  }
  return accept(null);
}

function decideWhole({ tag, state, replacedBy, replacementMended }: MendContext): Result<null> {
  if (replacementMended) {
    return refuse('conflict', `Take back first what was said of ${replacedBy}, which came in its place.`, 'tag');
  }
  if (state === 'waiting' || state === 'replaced') return accept(null);
  const message = `Nothing was said of tag ${tag} since the hammer: there is nothing to take back.`;
  return refuse('not_allowed', message, 'tag');
}

export interface MendableTag {
  readonly tag: string;
  readonly words: string;
}

/** The tags of one called lot of which something can be said; one that broke before the hammer is on no piece. */
export function mendableTags(tags: readonly Omit<SheetTag, 'lotNo'>[]): MendableTag[] {
  return tags
    .filter(({ condition, mended }) => condition !== 'broken' || mended !== undefined)
    .map(({ tag, mended }) => ({ tag, words: mended === undefined ? tag : `${tag} (${stateOf(mended.by)})` }));
}

function stateOf(by: string | null): string {
  return by === null ? 'broken, awaits its replacement' : `replaced by ${by}`;
}
