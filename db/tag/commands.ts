import * as z from 'zod';
import { type CommandContext, defineCommand } from '#db/book/command.ts';
import { goodsById, type LotRow, lotByNumber, lotNoOf, saleById } from '#db/book/find.ts';
import { lotNumber, readBy, rowId, someReason } from '#db/book/inputs.ts';
import type { Book } from '#db/book/open.ts';
import { updateRow } from '#db/book/rows.ts';
import { holdsNow } from '#db/lot/commands.ts';
import { tagList } from '#db/lot/fields.ts';
import { noLot } from '#db/lot/former.ts';
import { lotToChange } from '#db/lot/open-lots.ts';
import { replaceTags, saveReplacement, saveWhole } from '#db/lot/save.ts';
import { standingOutcomeOf } from '#db/outcome/queries.ts';
import { tag as tagTable } from '#db/schema/index.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { decideTags } from '#lib/tag/check.ts';
import { decideMend, FINDINGS } from '#lib/tag/mend.ts';
import { parseTag } from '#lib/tag/number.ts';
import { checkTags } from './check-tags.ts';
import { stateOfTag, type TagRow, tagRegions, tagsOfLot } from './queries.ts';

const LONGEST_TAG = 60;

type Mended = { readonly lotId: number; readonly tag: string; readonly replacement?: string };

/** Says that one tag of a called lot broke or was replaced; the lot itself, and what it brought, stay as they are. */
export const tagMend = defineCommand({
  name: 'tag.mend',
  summary: 'Says that an export tag of a called lot is broken or was replaced, with the reason.',
  logLabel: 'Export tag after the hammer',
  stations: ['intake', 'till', 'office'],
  input: z.strictObject({
    saleId: rowId,
    lotNo: lotNumber,
    /** The tag as the book has it. */
    tag: readBy(canonicalTag),
    found: z.enum(FINDINGS, { error: 'Say whether the tag is broken, replaced, or whole after all.' }),
    /** The number of the tag that was attached in its place; empty where it was not replaced. */
    replacement: z.string().max(LONGEST_TAG, { error: 'Enter one tag.' }).default(''),
    reason: someReason,
  }),
  run(context, { saleId, lotNo, tag, found, replacement }): Result<Mended> {
    const lot = lotByNumber(context.book, saleId, lotNo);
    if (!lot) return noLot(context.book, saleId, lotNo);
    const row = tagsOfLot(context.book, lot.id).find((one) => one.tag === tag);
    const decided = decideMend(mendContext(context.book, lot, { tag, row }), found);
    if (!decided.ok) return decided;
    if (!row) throw new RangeError(`tag ${tag} was let through without a row`);
    if (found !== 'replaced') {
      // A broken tag counts for its piece until its replacement is entered: the lot has as many tags as pieces.
      if (found === 'broken') updateRow(context, tagTable, row.id, { brokeAt: context.at });
      else saveWhole(context, row);
      return accept({ lotId: lot.id, tag });
    }
    const attached = attachedTag(context, lot, replacement);
    if (!attached.ok) return attached;
    saveReplacement(context, row, attached.value);
    return accept({ lotId: lot.id, tag, replacement: attached.value });
  },
});

function canonicalTag(text: string): Result<string> {
  const tag = parseTag(text);
  return tag.ok ? accept(tag.value.canonical) : tag;
}

function mendContext(book: Book, lot: LotRow, { tag, row }: { tag: string; row: TagRow | undefined }) {
  const inItsPlace = tagsOfLot(book, lot.id).find(({ replaces }) => replaces === tag);
  return {
    lotNo: lotNoOf(lot),
    ...{ tag, replacedBy: inItsPlace?.tag ?? null, state: row ? stateOfTag(row) : null },
    replacementMended: inItsPlace !== undefined && stateOfTag(inItsPlace) !== 'good',
    called: standingOutcomeOf(book, lot.id) !== undefined,
    movedOn: [row, inItsPlace].some((one) => one?.live === false),
  };
}

/** The tag that was attached now: a whole number that stands nowhere in the book, of this species and State. */
function attachedTag({ book }: CommandContext, lot: LotRow, typed: string): Result<string> {
  const goods = goodsById(book, lot.goodsId);
  if (!goods) return refuse('unknown', 'The goods of this lot are not in the book.', 'lotNo');
  const one = { tag: typed, condition: 'intact' } as const;
  const checked = checkTags(book, { saleId: lot.saleId, lotId: null, goods }, [one]);
  if (!checked.ok) return { ...checked, field: 'replacement' };
  const [fresh] = checked.value;
  if (!fresh) return refuse('missing', 'Enter the number on the replacement tag.', 'replacement');
  if (fresh.cameBackFromId !== null) {
    const message = `Tag ${fresh.tag} is on a piece that went home unsold: check the number on the replacement.`;
    return refuse('taken', message, 'replacement');
  }
  const regions = tagRegions(saleById(book, lot.saleId)?.region ?? '', lot.takenIn);
  const about = { goods, lot: { lotNo: lotNoOf(lot), count: null }, tags: [fresh], regions };
  const [fault] = decideTags({ ...about, pieceCountRequired: false });
  return fault ? refuse('malformed', fault.message, 'replacement') : accept(fresh.tag);
}

/** Says which export tags are on a lot's pieces; the lot leaves hold the moment they are right. */
export const tagsSet = defineCommand({
  name: 'tags.set',
  summary: "Sets the export tags on a lot's pieces, before it is called.",
  logLabel: 'Export tags entered',
  stations: ['intake', 'office'],
  input: z.strictObject({ lotId: rowId, tags: tagList }),
  run(context, { lotId, tags }) {
    const row = lotToChange(context.book, lotId);
    if (!row.ok) return row;
    const goods = goodsById(context.book, row.value.goodsId);
    if (!goods) return refuse('unknown', 'The goods of this lot are not in the book.', 'lotId');
    const checked = checkTags(context.book, { saleId: row.value.saleId, lotId, goods }, tags);
    if (!checked.ok) return checked;
    replaceTags(context, lotId, checked.value);
    return accept({ lotId, holds: holdsNow(context, lotId) });
  },
});
