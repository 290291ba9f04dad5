import { z } from 'zod';
import { type CheckToWrite, decideChecks, decideChecksOf, LAST_CHECK } from '#lib/payout/decide-checks.ts';
import { accept, refuse } from '#lib/result.ts';
import { type CommandContext, defineCommand } from '../command.ts';
import { partyNumber, rowId, seenCount } from '../inputs.ts';
import { saleById, sellerByNumber } from '../queries/find.ts';
import {
  type PayoutSeller,
  payoutSeller,
  payoutSellers,
  personIdOf,
  takenCheckNumbers,
} from '../queries/payout-scene.ts';
import { saveCheck } from '../save/settlement.ts';

const input = z.strictObject({
  saleId: rowId,
  /** Null pays every seller number that can be paid. */
  sellerNo: partyNumber.nullable(),
  /** The number on the first check of the pile; the others follow it. */
  firstNumber: z
    .int({ error: 'Enter the number on the first check.' })
    .min(1, { error: 'Check numbers begin at 1.' })
    .max(LAST_CHECK, { error: `Check numbers end at ${LAST_CHECK}.` }),
  /** For everybody: how many checks the treasurer saw that this makes. */
  seen: seenCount,
});

/** Writes a check to each partner who has something to get, numbered from the first one on. */
export const checkWrite = defineCommand({
  name: 'check.write',
  summary: 'Writes checks to the partners of one seller number, or of all that can be paid, numbered from a start.',
  logLabel: 'Check written',
  stations: ['payout', 'office'],
  input,
  run(context, { saleId, sellerNo, firstNumber, seen }) {
    const sale = saleById(context.book, saleId);
    if (!sale) return refuse('unknown', 'This sale is not in the book: choose it again.', 'saleId');
    const one = sellerNo === null ? undefined : payoutSeller(context.book, sale, sellerNo);
    if (sellerNo !== null && !one) {
      return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
    }
    const given = { stage: sale.stage, firstNumber, taken: takenCheckNumbers(context.book, saleId) };
    const sellers = one ? [one] : payoutSellers(context.book, sale);
    const decided = one ? decideChecksOf(given, one) : decideChecks(given, sellers, seen);
    if (!decided.ok) return decided;
    return accept({ checks: write(context, saleId, { checks: decided.value, sellers }) });
  },
});

interface Writing {
  readonly checks: readonly CheckToWrite[];
  readonly sellers: readonly PayoutSeller[];
}

function write(context: CommandContext, saleId: number, { checks, sellers }: Writing) {
  const issued = new Map(sellers.map((seller) => [seller.sellerNo, seller.issued]));
  return checks.map(({ number, sellerNo, personId: ref, amountCents }) => {
    const seller = sellerByNumber(context.book, saleId, sellerNo);
    const personId = personIdOf(context.book, saleId, ref);
    const sheet = issued.get(sellerNo);
    if (!seller || personId === undefined || !sheet)
      throw new TypeError(`check ${number} has nobody to pay or nothing to pay for`);
    const place = { saleId, number, sellerId: seller.id, personId, settlementId: sheet.settlementId };
    return { checkId: saveCheck(context, { ...place, amountCents, replacesId: null }), number, sellerNo };
  });
}
