import * as z from 'zod';
import { type GoodsRow, goodsByCode, saleById } from '#db/book/find.ts';
import { shapeOf } from '#db/book/inputs.ts';
import type { Book } from '#db/book/open.ts';
import { licencesOfSeller, piecesBrought } from '#db/person/may-bring.ts';
import { checkTags } from '#db/tag/check-tags.ts';
import { factsOfSaid } from '#lib/field/fields.ts';
import { decideLot, decideSeasonLimit } from '#lib/lot/decide-lot.ts';
import { BYS, LOT_FIELDS } from '#lib/lot/fields.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { LotFields, TagFields } from './save.ts';

const tagInput = z.strictObject({
  tag: z.string().max(80),
  condition: z.enum(['intact', 'broken', 'replacement']).default('intact'),
});

export const tagList = z.array(tagInput).max(500, { error: 'Enter at most 500 tags for one lot.' });

/** What is said of a lot at the check-in table; figures as they are typed. */
export const lotFields = {
  ...shapeOf(LOT_FIELDS),
  goods: z.string({ error: 'Choose the goods.' }).min(1, { error: 'Choose the goods.' }).max(40),
  /** Null takes what is usual for the goods. */
  by: z.enum(BYS).nullable().default(null),
} satisfies z.ZodRawShape;

export const lotShape = z.strictObject({ ...lotFields, tags: tagList });
export type LotInput = z.output<typeof lotShape>;

export interface CheckedLot {
  readonly goods: GoodsRow;
  readonly fields: LotFields;
  readonly tags: TagFields[];
}

interface LotAt {
  readonly saleId: number;
  readonly sellerId: number;
  readonly lotId: number | null;
}

/** Decides whether a lot may stand as it was said, and gives the columns and tags to keep. */
export function checkLot(book: Book, at: LotAt, input: LotInput): Result<CheckedLot> {
  const goods = goodsByCode(book, at.saleId, input.goods);
  if (!goods)
    return refuse('unknown', `This sale takes no goods called ${input.goods}: choose from the list.`, 'goods');
  const fields = fieldsOf(goods, input);
  const decided = decideLot({ ...fields, exportTag: goods.exportTag });
  if (!decided.ok) return decided;
  const within = decideSeason(book, at, { goods, count: fields.count });
  if (!within.ok) return within;
  const tags = checkTags(book, { ...at, goods }, input.tags);
  return tags.ok ? accept({ goods, fields, tags: tags.value }) : tags;
}

/** Refuses the piece with which the licences behind a seller number would have brought too many of the goods. */
export function decideSeason(book: Book, at: LotAt, said: { goods: GoodsRow; count: number | null }): Result<null> {
  const { goods, count } = said;
  const season = saleById(book, at.saleId)?.season;
  if (goods.seasonLimit === null || season === undefined) return accept(null);
  const licences = licencesOfSeller(book, at.sellerId);
  const before = piecesBrought(book, { season, goods: goods.goods, licences, exceptLotId: at.lotId });
  return decideSeasonLimit({ goodsName: goods.name, limit: goods.seasonLimit, licences, before, count });
}

function fieldsOf(goods: GoodsRow, { tags: _tags, ...input }: LotInput): LotFields {
  const { goods: _code, ...said } = factsOfSaid(LOT_FIELDS, { ...input, by: input.by ?? goods.by });
  return { ...said, goodsId: goods.id };
}
