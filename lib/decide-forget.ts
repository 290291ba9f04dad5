/** When the contact data of a person may go: no sale of theirs is open, and only what no issued sheet carries. */
import type { Stage } from './facts.ts';
import { accept, type Result, refuse } from './result.ts';

/** Where somebody is reached at once; no paper of a seller or a buyer carries it. */
const REACH_FIELDS = ['phone', 'email'] as const;
/** Where somebody lives; settlement sheets carry it. */
const ADDRESS_FIELDS = ['street', 'city', 'region', 'postcode'] as const;
export const CONTACT_FIELDS = [...ADDRESS_FIELDS, ...REACH_FIELDS] as const;
export type ContactField = (typeof CONTACT_FIELDS)[number];

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
  return accept(sheets > 0 ? REACH_FIELDS : CONTACT_FIELDS);
}
