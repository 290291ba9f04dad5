/** A seller number with those who share it, and what is charged to it. */
import type { CommandContext } from '#db/book/command.ts';
import { insertRow, type NewRow } from '#db/book/rows.ts';
import { charge, partner, seller } from '#db/schema/index.ts';

type PartnerFields = Pick<NewRow<typeof partner>, 'personId' | 'parts'>;

export function saveSeller(
  context: CommandContext,
  fields: NewRow<typeof seller>,
  partners: readonly PartnerFields[],
): number {
  const sellerId = insertRow(context.book, seller, { ...fields, line: context.line });
  for (const [index, one] of partners.entries()) {
    insertRow(context.book, partner, { sellerId, position: index + 1, ...one, line: context.line });
  }
  return sellerId;
}

export function saveCharge(context: CommandContext, fields: NewRow<typeof charge>): number {
  return insertRow(context.book, charge, { ...fields, line: context.line });
}
