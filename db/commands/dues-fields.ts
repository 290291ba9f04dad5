/** What is said of dues, and how they are decided: for somebody who has a seller number, gets one now, or has none. */
import { z } from 'zod';
import { type DuesHow, decideDues, duesPaidUntil } from '#lib/dues.ts';
import { accept, type Result } from '#lib/result.ts';
import { dateOrNull, price, text } from '../inputs.ts';
import type { PersonRow, SaleRow } from '../queries/find.ts';

const HOW_ASKED = 'Say how the dues are paid: in cash, by check, by card, or from the proceeds.';

export const duesFields = {
  /** Empty where a form was sent before anybody chose: then the book asks. */
  how: z
    .enum(['', 'deducted', 'cash', 'check', 'card'], { error: HOW_ASKED })
    .refine((how): how is DuesHow => how !== '', { error: HOW_ASKED }),
  amount: price,
  /** Empty takes the day that the sale's rule gives. */
  memberUntil: dateOrNull.default(null),
  /** What stands on the check or the card’s slip; of the other ways nothing is kept. */
  reference: text,
} satisfies z.ZodRawShape;

const shape = z.strictObject(duesFields);
export type DuesInput = z.output<typeof shape>;
export const duesOrNull = shape.nullable().default(null);

interface DuesOf {
  readonly sale: SaleRow;
  readonly person: PersonRow;
  readonly hasNumber: boolean;
}

/** The day to which the dues would be paid, or why they cannot be taken so. */
export function decideDuesOf({ sale, person, hasNumber }: DuesOf, { how, memberUntil }: DuesInput): Result<string> {
  const paidUntil = memberUntil ?? duesPaidUntil(sale, person.memberUntil);
  const { name, memberUntil: before } = person;
  const { stage, heldOn } = sale;
  const decided = decideDues({ name, stage, heldOn, how, hasNumber, memberUntil: before, paidUntil });
  return decided.ok ? accept(paidUntil) : decided;
}
