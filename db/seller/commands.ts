import * as z from 'zod';
import { saveCharge, saveChargeVoiding } from '#db/account/post.ts';
import { type CommandContext, defineCommand, defineSaleCommand } from '#db/book/command.ts';
import { nextNumber, type PersonRow, personById, rowBy, rowsBy, type SaleRow, sellerByNumber } from '#db/book/find.ts';
import { partyNumber, rowId, signedAmount, someReason, text } from '#db/book/inputs.ts';
import type { Book } from '#db/book/open.ts';
import { addRow, type NewRow } from '#db/book/rows.ts';
import { answerOf, chargeById, type SavedDues, saleOfCharge, saveDues } from '#db/person/dues.ts';
import { decideDuesOf, duesOrNull } from '#db/person/dues-commands.ts';
import { saveParticulars } from '#db/person/save.ts';
import { charge, dues, partner, seller } from '#db/schema/index.ts';
import { decideIntakeOpen } from '#lib/lot/decide-lot.ts';
import { decideVoid } from '#lib/payment/decide-payment.ts';
import { decideLicences, decideSeller } from '#lib/person/person.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { membershipOf } from '#lib/settlement/settlement.ts';

const partnerInput = z.strictObject({
  personId: rowId,
  parts: z.int().min(1, { error: 'Parts begin at 1.' }).max(1000).default(1),
  /** Dues taken in the same act, so that somebody who comes as a guest sells as a member. */
  dues: duesOrNull,
});
type PartnerInput = z.output<typeof partnerInput>;

export const sellerRegister = defineSaleCommand({
  name: 'seller.register',
  summary: 'Gives a seller number to a person or to partners.',
  logLabel: 'Seller number given',
  stations: ['intake', 'office'],
  input: z.strictObject({
    saleId: rowId,
    /** Null takes the next free number, in the order of arrival. */
    sellerNo: partyNumber.nullable().default(null),
    partners: z.array(partnerInput).min(1, { error: 'Name at least one person.' }).max(20),
    broughtBy: text,
  }),
  run({ sale, ...context }, given) {
    const open = decideIntakeOpen(sale.stage);
    if (!open.ok) return open;
    const people = peopleOf(context, given.partners);
    if (!people.ok) return people;
    const members = withDues(sale, people.value, given.partners);
    if (!members.ok) return members;
    const sellerNo = given.sellerNo ?? nextSellerNo(context.book, sale.id);
    const decided = decideFor(context, { sale, sellerNo, people: members.value });
    if (!decided.ok) return decided;
    for (const person of people.value) {
      saveParticulars(context, { saleId: sale.id, personId: person.id }, { ...person, personId: person.ref });
    }
    const { broughtBy } = given;
    const partners = given.partners.map(({ personId, parts }) => ({ personId, parts }));
    const sellerId = saveSeller(context, { saleId: sale.id, sellerNo, broughtBy, arrivedAt: context.at }, partners);
    const taken: SavedDues[] = [];
    const counts = sale.stage !== 'settling';
    for (const [at, { dues }] of given.partners.entries()) {
      const [person, memberUntil] = [people.value[at], members.value[at]?.memberUntil];
      if (!dues || !person || memberUntil == null) continue;
      const { how, amount: amountCents, reference } = dues;
      taken.push(saveDues(context, { sale, person, sellerId, how, amountCents, reference, memberUntil, counts }));
    }
    return accept({ sellerId, sellerNo, ...answerOf(taken) });
  },
});

/** The people as they stand once the dues said beside them are taken. */
function withDues(sale: SaleRow, people: readonly PersonRow[], partners: readonly PartnerInput[]): Result<PersonRow[]> {
  const members: PersonRow[] = [];
  for (const [at, person] of people.entries()) {
    const dues = partners[at]?.dues;
    const paidUntil = dues ? decideDuesOf({ sale, person, hasNumber: true }, dues) : accept(person.memberUntil);
    if (!paidUntil.ok) return { ...paidUntil, field: `partners.${at}.dues.${paidUntil.field}` };
    members.push({ ...person, memberUntil: paidUntil.value });
  }
  return accept(members);
}

function peopleOf(context: CommandContext, partners: readonly { personId: number }[]): Result<PersonRow[]> {
  const people: PersonRow[] = [];
  for (const { personId } of partners) {
    const person = personById(context.book, personId);
    if (!person) return refuse('unknown', 'This person is not in the book: find or enrol them first.', 'partners');
    if (people.some(({ id }) => id === personId)) {
      return refuse('taken', `${person.name} is named twice: name each partner once.`, 'partners');
    }
    people.push(person);
  }
  return accept(people);
}

function decideFor(
  context: CommandContext,
  { sale, sellerNo, people }: { sale: SaleRow; sellerNo: number; people: readonly PersonRow[] },
): Result<null> {
  const licences = decideLicences({ required: sale.licenceRequired, heldOn: sale.heldOn, people });
  if (!licences.ok) return licences;
  const partners = people.map(({ ref, memberUntil }) => ({ personId: ref, memberUntil, parts: 1 }));
  const taken = sellerByNumber(context.book, sale.id, sellerNo);
  const guests = people.filter(({ memberUntil }) => memberUntil === null || memberUntil < sale.heldOn);
  return decideSeller({
    sellerNo,
    takenBy: taken ? namesBehind(context.book, taken.id) : null,
    membership: membershipOf({ partners }, sale.heldOn),
    guestsMaySell: sale.guestsMaySell,
    names: guests.map(({ name }) => name),
  });
}

const partnersBehind = rowsBy(partner, partner.position, 'sellerId');

function namesBehind(book: Book, sellerId: number): string {
  const partners = partnersBehind(book, sellerId);
  return partners.map(({ personId }) => personById(book, personId)?.name ?? '').join(' and ');
}

const nextSellerNo = nextNumber(seller, seller.sellerNo);

/** Gives a seller number to those who share it; gives the row's id. */
export function saveSeller(
  context: CommandContext,
  fields: NewRow<typeof seller>,
  partners: readonly Pick<NewRow<typeof partner>, 'personId' | 'parts'>[],
): number {
  const sellerId = addRow(context, seller, fields);
  for (const [index, one] of partners.entries()) addRow(context, partner, { sellerId, position: index + 1, ...one });
  return sellerId;
}

/** Charges a seller number dues, an advance or an adjustment: taken in cash, or from the proceeds. */
export const chargeAdd = defineSaleCommand({
  name: 'charge.add',
  summary: 'Charges a seller number dues, an advance or an adjustment.',
  logLabel: 'Charge entered',
  stations: ['intake', 'payout', 'office'],
  untilClosed: true,
  input: z.strictObject({
    saleId: rowId,
    sellerNo: partyNumber,
    kind: z.enum(['dues', 'advance', 'adjustment']),
    amount: signedAmount,
    how: z.enum(['deducted', 'cash']),
    note: text,
  }),
  run(context, { saleId, sellerNo, kind, amount: amountCents, how, note }) {
    const seller = sellerByNumber(context.book, saleId, sellerNo);
    if (!seller) return refuse('unknown', `There is no seller number ${sellerNo}: check the card.`, 'sellerNo');
    if (amountCents < 0 && kind !== 'adjustment') {
      const message = 'Only an adjustment can be in the seller’s favor: enter the amount without a minus.';
      return refuse('malformed', message, 'amount');
    }
    if (kind === 'adjustment' && note.trim() === '')
      return refuse('missing', 'Say what the adjustment is for.', 'note');
    return accept({ chargeId: saveCharge(context, { sellerId: seller.id, kind, amountCents, how, note }) });
  },
});

const SHORTEST_REASON = 3;
const SAY_WHY = { error: `Say why in at least ${SHORTEST_REASON} characters.` };

const chargeThatVoids = rowBy(charge, 'voidsId');
const duesOfCharge = rowBy(dues, 'chargeId');

/**
 * Takes a charge back by a further row with the reason; a sheet that has it is then corrected. What was paid in cash is
 * handed back: the drawer has that as a move at this line. What bought a membership goes only with it.
 */
export const chargeWaive = defineCommand({
  name: 'charge.waive',
  summary: 'Waives a charge of a seller number, with the reason.',
  logLabel: 'Charge waived',
  stations: ['payout', 'office'],
  input: z.strictObject({
    chargeId: rowId,
    reason: someReason.refine((reason) => reason.trim().length >= SHORTEST_REASON, SAY_WHY),
  }),
  run(context, { chargeId, reason }) {
    const { book } = context;
    const row = chargeById(book, chargeId);
    const sale = row && saleOfCharge(book, row);
    if (!row || !sale) return refuse('unknown', 'This charge is not in the book: reload the page.', 'chargeId');
    const voided = chargeThatVoids(book, chargeId) !== undefined;
    const decided = decideVoid({ stage: sale.stage, voids: row.voidsId !== null, voided }, 'charge');
    if (!decided.ok) return decided;
    if (duesOfCharge(book, chargeId)) {
      return refuse('not_allowed', 'This charge was somebody’s dues: take the dues back at Intake.', 'chargeId');
    }
    return accept({ chargeId: saveChargeVoiding(context, row, reason), voidsId: chargeId });
  },
});
