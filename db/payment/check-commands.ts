import * as z from 'zod';
import { savePayment, saveVoiding } from '#db/account/post.ts';
import { clearedDay } from '#db/bank/queries.ts';
import { type CommandContext, defineCommand, defineSaleCommand } from '#db/book/command.ts';
import { particularsOf, rowBy, type SaleRow, saleById, sellerById, sellerByNumber } from '#db/book/find.ts';
import { amountOrNull, partyNumber, rowId, seenCount, someReason } from '#db/book/inputs.ts';
import { addRow, type NewRow } from '#db/book/rows.ts';
import { timeZoneOf } from '#db/sale/queries.ts';
import { sellerCheck } from '#db/schema/index.ts';
import { type PayoutSeller, payoutSeller, payoutSellers, personIdOf } from '#db/settlement/payout.ts';
import { type Cents, ZERO } from '#lib/money/money.ts';
import {
  type CheckToWrite,
  checkNumberMistake,
  decideCheckAgain,
  decideChecks,
  decideChecksOf,
  LAST_CHECK,
  OWES_AS_BUYER,
} from '#lib/payment/checks.ts';
import { decideBounce, decideStop } from '#lib/payment/decide-payment.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { takenCheckNumbers } from './check-numbers.ts';
import { paymentById, paymentThatVoids } from './queries.ts';
import { owedSince } from './since-closing.ts';

const mistake = { error: ({ input }: { input?: unknown }) => checkNumberMistake(input) ?? undefined };
const checkNumber = z.int(mistake).min(1, mistake).max(LAST_CHECK, mistake);

export const checkWrite = defineSaleCommand({
  name: 'check.write',
  summary: 'Writes checks to the partners of one seller number, or of all that can be paid, numbered from a start.',
  logLabel: 'Check written',
  stations: ['payout', 'office'],
  input: z.strictObject({
    saleId: rowId,
    /** Null pays every seller number that can be paid. */
    sellerNo: partyNumber.nullable(),
    /** The number on the first check of the pile; the others follow it. */
    firstNumber: checkNumber,
    /** For everybody: how many checks the treasurer saw that this makes. */
    seen: seenCount,
    /** For one number: the questions that the treasurer has answered with yes. */
    answered: z.array(z.literal(OWES_AS_BUYER)).max(1).default([]),
  }),
  run({ sale, ...context }, { saleId, sellerNo, firstNumber, seen, answered }) {
    const found = sellerNo === null ? undefined : payoutSeller(context.book, sale, sellerNo);
    const one = found && sale.stage === 'closed' ? owedSince(context.book, sale, found) : found;
    if (sellerNo !== null && !one) {
      return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
    }
    const names = new Map(found?.file.people.map((person) => [person.personId, person.name]));
    const said = found && {
      ...{ currency: sale.currency, at: context.at, timeZone: timeZoneOf(context.book), payments: found.payments },
      nameOf: (personId: string) => names.get(personId) ?? `Seller number ${sellerNo}`,
    };
    const given = {
      ...{ stage: sale.stage, owedSince: one !== found, firstNumber, taken: takenCheckNumbers(context.book) },
      ...(said && { said }),
    };
    const sellers = one ? [one] : payoutSellers(context.book, sale);
    const decided = one ? decideChecksOf(given, one, answered) : decideChecks(given, sellers, seen);
    if (!decided.ok) return decided;
    return accept({ checks: write(context, saleId, { checks: decided.value, sellers }) });
  },
});

function write(
  context: CommandContext,
  saleId: number,
  { checks, sellers }: { readonly checks: readonly CheckToWrite[]; readonly sellers: readonly PayoutSeller[] },
) {
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

interface CheckFields extends Omit<NewRow<typeof sellerCheck>, 'paymentId'> {
  readonly sellerId: number;
  readonly personId: number;
  readonly amountCents: Cents;
}

/** Writes a check: the payment that it is, and its number. Gives the row's id. */
function saveCheck(context: CommandContext, check: CheckFields): number {
  const { sellerId, personId, amountCents, ...fields } = check;
  const party = { saleId: check.saleId, buyerId: null, sellerId, personId };
  const money = { direction: 'out', method: 'check', amountCents, reference: `Check ${check.number}` } as const;
  const paymentId = savePayment(context, { ...party, ...money, paidAt: context.at });
  return addRow(context, sellerCheck, { ...fields, paymentId });
}

const checkById = rowBy(sellerCheck, 'id');

function stoppable({ book }: CommandContext, paymentId: number): Result<null> {
  const voided = paymentThatVoids(book, paymentId) !== undefined;
  return decideStop({ voided, clearedOn: clearedDay(book, 'payment', paymentId) });
}

const NOT_IN_THE_BOOK = refuse('unknown', 'This check is not in the book: reload the page.', 'checkId');

/** What happened to it, as the reason says it. */
const STOPPED = { lost: 'lost', stopped: 'stopped at the bank' } as const;

/** Voids a check on the day on which it is stopped, also after the closing; the closing report stays as it was. */
export const checkStop = defineCommand({
  name: 'check.stop',
  summary: 'Voids a check that was lost or stopped, also after the closing: what it paid is owed again.',
  logLabel: 'Check stopped',
  stations: ['payout', 'office'],
  input: z.strictObject({ checkId: rowId, kind: z.enum(['lost', 'stopped']), reason: someReason }),
  run(context, { checkId, kind, reason }) {
    const check = checkById(context.book, checkId);
    const paid = check && paymentById(context.book, check.paymentId);
    if (!check || !paid) return NOT_IN_THE_BOOK;
    const decided = stoppable(context, paid.id);
    if (!decided.ok) return decided;
    saveVoiding(context, paid, `${STOPPED[kind]}: ${reason}`);
    return accept({ checkId, number: check.number });
  },
});

/** Takes a check back that the bank did not get paid; what it paid is owed again, with the fee if there is one. */
export const checkBounce = defineCommand({
  name: 'check.bounce',
  summary:
    'Records that a check that was taken in came back, also after the closing, and charges a fee if one is given.',
  logLabel: 'Check came back',
  stations: ['payout', 'office'],
  input: z.strictObject({
    paymentId: rowId,
    /** Empty for none. What may be charged is set by the law of the State. */
    fee: amountOrNull.default(null),
    reason: someReason,
  }),
  run(context, { paymentId, fee, reason }) {
    const row = paymentById(context.book, paymentId);
    if (!row) return refuse('unknown', 'This payment is not in the book: reload the page.', 'paymentId');
    const { saleId, buyerId, sellerId, personId, voidsId, reference } = row;
    const decided = decideBounce(row, {
      voids: voidsId !== null,
      voided: paymentThatVoids(context.book, paymentId) !== undefined,
      ofNumber: buyerId !== null || sellerId !== null,
    });
    if (!decided.ok) return decided;
    if (fee !== null && fee !== ZERO && buyerId === null) {
      const message = 'A fee is charged to a buyer only: enter a seller’s as an adjustment under Charges and credits.';
      return refuse('not_allowed', message, 'fee');
    }
    saveVoiding(context, row, reason);
    const party = { saleId, buyerId, sellerId, personId };
    const charged = { direction: 'out', method: 'check_fee', reference } as const;
    const feeId =
      fee === null || fee === ZERO
        ? null
        : savePayment(context, { ...party, ...charged, amountCents: fee, paidAt: context.at });
    return accept({ paymentId, feeId });
  },
});

export const checkReissue = defineCommand({
  name: 'check.reissue',
  summary:
    'Voids a check with the reason and writes another in its place, also after the closing, never for more than is owed now.',
  logLabel: 'Check written anew',
  stations: ['payout', 'office'],
  input: z.strictObject({
    checkId: rowId,
    number: checkNumber,
    reason: someReason,
  }),
  run(context, { checkId, number, reason }) {
    const check = checkById(context.book, checkId);
    const paid = check && paymentById(context.book, check.paymentId);
    const sale = check && saleById(context.book, check.saleId);
    if (!check || !paid || !sale) return NOT_IN_THE_BOOK;
    const decided = stoppable(context, paid.id);
    if (!decided.ok) return decided;
    if (takenCheckNumbers(context.book).has(number)) {
      return refuse('taken', `Check ${number} is written already: take the number of the new check.`, 'number');
    }
    const { sellerId, personId } = paid;
    if (sellerId === null || personId === null) throw new TypeError(`check ${check.number} was written to nobody`);
    const refused = notAgain(context, sale, { check, personId, sellerId, amountCents: paid.amountCents });
    if (refused) return refused;
    saveVoiding(context, paid, reason);
    const place = { saleId: sale.id, number, sellerId, personId, settlementId: check.settlementId };
    const fields = { ...place, amountCents: paid.amountCents, replacesId: checkId };
    return accept({ checkId: saveCheck(context, fields), number });
  },
});

interface Again {
  readonly check: typeof sellerCheck.$inferSelect;
  readonly personId: number;
  readonly sellerId: number;
  readonly amountCents: Cents;
}

/** Why a check is not written anew for its old amount: what is owed by now is asked as for any other payment. */
function notAgain({ book }: CommandContext, sale: SaleRow, { check, personId, sellerId, amountCents }: Again) {
  const seller = sellerById(book, sellerId);
  const person = particularsOf(book, sale.id, personId);
  const found = seller && payoutSeller(book, sale, seller.sellerNo);
  if (!found || !person) throw new TypeError(`check ${check.number} was written to nobody`);
  const { ref, name } = person;
  return decideCheckAgain(found, { number: check.number, personId: ref, name, amountCents, currency: sale.currency });
}
