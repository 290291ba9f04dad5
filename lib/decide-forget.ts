/** When the contact data of a person may go: no sale of theirs is open, and only what no issued sheet carries. */
import type { Stage } from '#lib/facts.ts';
import { fieldNames } from '#lib/field/fields.ts';
import { CONTACT_FIELDS, type ContactField, REACH_FIELDS } from '#lib/person/fields.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

interface ForgetGround {
  /** The sales at which the person sold or bought. */
  readonly sales: readonly { readonly name: string; readonly stage: Stage }[];
  /** How many settlement sheets of theirs were issued. */
  readonly sheets: number;
}

/**
 * The fields to remove. A closed sale is at zero, so that no money asks for the data any more; a settlement sheet is
 * a paper of account and keeps the address that was printed on it, for as long as the book is kept.
 */
export function decideForget({ sales, sheets }: ForgetGround): Result<readonly ContactField[]> {
  const open = sales.find(({ stage }) => stage !== 'closed');
  if (open) {
    return refuse('wrong_stage', `${open.name} is not closed: until then this person must be reached.`, 'personId');
  }
  return accept(fieldNames(sheets > 0 ? REACH_FIELDS : CONTACT_FIELDS));
}
