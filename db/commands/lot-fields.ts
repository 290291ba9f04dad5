import { z } from 'zod';
import { parseRegion } from '#lib/codes.ts';
import { decideLot } from '#lib/decide-lot.ts';
import { decideSeasonLimit } from '#lib/decide-season-limit.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { checkTags, type TypedTag } from '../check-tags.ts';
import { flag, minimumOrNull, piecesOrNull, readByOrNull, text, weightOrNull } from '../inputs.ts';
import type { Book } from '../open.ts';
import { type GoodsRow, goodsByCode, saleById } from '../queries/find.ts';
import { licencesOfSeller, piecesBrought } from '../queries/season-brought.ts';
import type { LotFields, TagFields } from '../save/lot.ts';

const tagInput = z.strictObject({
  tag: z.string().max(80),
  condition: z.enum(['intact', 'broken', 'replacement']).default('intact'),
});

export const tagList = z.array(tagInput).max(500, { error: 'Enter at most 500 tags for one lot.' });

/** What is said of a lot at the check-in table; figures as they are typed. */
export const lotFields = {
  goods: z.string({ error: 'Choose the goods.' }).min(1, { error: 'Choose the goods.' }).max(40),
  /** Null takes what is usual for the goods. */
  by: z.enum(['piece', 'lot', 'lb', 'oz']).nullable().default(null),
  count: piecesOrNull.default(null),
  weight: weightOrNull.default(null),
  size: text,
  grade: text,
  section: text,
  form: z.enum(['put_up', 'green', 'carcass']).default('put_up'),
  takenIn: readByOrNull(parseRegion)
    .transform((region) => region ?? '')
    .default(''),
  minimum: minimumOrNull.default(null),
  withoutReserve: flag.default(false),
  donated: flag.default(false),
  note: text,
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
  const tags = checkTags(book, { ...at, goods }, input.tags as TypedTag[]);
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

function fieldsOf(goods: GoodsRow, input: LotInput): LotFields {
  const { size, grade, section, form, takenIn, withoutReserve, donated, note, count } = input;
  const words = { size, grade, section, form, takenIn, withoutReserve, donated, note };
  const by = input.by ?? goods.by;
  return { goodsId: goods.id, by, count, weightThousandths: input.weight, minimumCents: input.minimum, ...words };
}
