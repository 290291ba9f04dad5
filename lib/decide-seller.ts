/** Who may sell behind one number. */
import type { Membership } from '#lib/facts.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

export interface ProposedSeller {
  readonly sellerNo: number;
  readonly numberTaken: boolean;
  readonly membership: Membership;
  readonly guestsMaySell: boolean;
  /** The names of the partners in the order given, to say whom a refusal is about. */
  readonly names: readonly string[];
}

export function decideSeller(proposed: ProposedSeller): Result<null> {
  if (proposed.numberTaken) {
    return refuse('taken', `Seller number ${proposed.sellerNo} is taken: take the next free one.`, 'sellerNo');
  }
  if (proposed.membership === 'guest' && !proposed.guestsMaySell) {
    const who = proposed.names.join(' and ');
    return refuse(
      'not_allowed',
      `Only members may sell at this sale, and ${who} would sell as a guest: take dues first, or change the terms.`,
      'partners',
    );
  }
  return accept(null);
}
