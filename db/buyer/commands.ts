import * as z from 'zod';
import { type CommandContext, defineSaleCommand } from '#db/book/command.ts';
import { type BuyerRow, buyerByNumber, nextNumber, personById, personByRef, saleById } from '#db/book/find.ts';
import { flag, partyNumber, rowId, seenCount, shapeOf } from '#db/book/inputs.ts';
import { addRow, updateRow } from '#db/book/rows.ts';
import { saveParticulars, savePerson } from '#db/person/save.ts';
import { buyer } from '#db/schema/index.ts';
import { decideCarry } from '#lib/buyer/buyer.ts';
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { decideWalkIn, WALK_IN_NAME, WALK_IN_REF } from '#lib/buyer/walk-in.ts';
import { emptyFacts, factsOfRow, factsOfSaid } from '#lib/field/fields.ts';
import { LICENCE_FIELDS, PERSON_FIELDS } from '#lib/person/fields.ts';
import { accept, refuse } from '#lib/result/result.ts';
import { decideSeen } from '#lib/sale/stage.ts';
import { buyersOfSale, lastSaleWithBuyers, namedBuyersOf } from './accounts.ts';

const nextBuyerNo = nextNumber(buyer, buyer.buyerNo);

export const buyerRegister = defineSaleCommand({
  name: 'buyer.register',
  summary: 'Gives a buyer number to a person.',
  logLabel: 'Buyer registered',
  stations: ['till', 'office'],
  input: z.strictObject({
    saleId: rowId,
    /** Null takes the next free number. */
    buyerNo: partyNumber.nullable().default(null),
    personId: rowId,
    ...shapeOf(BUYER_FIELDS),
    cleared: flag.default(false),
  }),
  run({ sale, ...context }, { saleId, personId, buyerNo: typedNo, cleared, ...fields }) {
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: no buyer can be added.', 'saleId');
    const person = personById(context.book, personId);
    if (!person) return refuse('unknown', 'This person is not in the book: find or enrol them first.', 'personId');
    const buyerNo = typedNo ?? nextBuyerNo(context.book, saleId);
    if (buyerByNumber(context.book, saleId, buyerNo)) {
      return refuse('taken', `Buyer number ${buyerNo} is taken: take the next free one.`, 'buyerNo');
    }
    if (fields.taxExempt && fields.exemptNo === '') {
      return refuse('missing', 'Enter the number of the exemption, as the certificate shows it.', 'exemptNo');
    }
    saveParticulars(context, { saleId, personId }, { ...person, personId: person.ref });
    const clearance = { cleared, clearedBy: cleared ? context.worker : '' };
    const facts = factsOfSaid(BUYER_FIELDS, fields);
    const buyerId = addRow(context, buyer, { saleId, buyerNo, personId, ...facts, ...clearance });
    return accept({ buyerId, buyerNo });
  },
});

/** Gives a number at once to somebody whose name nobody asks. They are not cleared: the Block asks, as of anybody. */
export const buyerWalkIn = defineSaleCommand({
  name: 'buyer.walkin',
  summary:
    'Gives the next free buyer number to a walk-in, not cleared; where the rules of the table ask for a license, with one.',
  logLabel: 'Walk-in buyer',
  stations: ['till', 'office'],
  untilClosed: true,
  input: z.strictObject({ saleId: rowId, ...shapeOf(LICENCE_FIELDS) }),
  run({ sale, ...context }, { saleId, ...licence }) {
    const known = personByRef(context.book, WALK_IN_REF);
    const rules = { required: sale.licenceRequired, heldOn: sale.heldOn, known: known?.name ?? null };
    const decided = decideWalkIn(rules, licence);
    if (!decided.ok) return decided;
    const fields = { ...emptyFacts(PERSON_FIELDS), name: WALK_IN_NAME };
    const personId = known?.id ?? savePerson(context, WALK_IN_REF, fields).id;
    saveParticulars(context, { saleId, personId }, { ...fields, personId: WALK_IN_REF });
    const buyerNo = nextBuyerNo(context.book, saleId);
    const facts = { ...emptyFacts(BUYER_FIELDS), ...licence, cleared: false, clearedBy: '' };
    return accept({ buyerId: addRow(context, buyer, { saleId, buyerNo, personId, ...facts }), buyerNo });
  },
});

/** Sets what a buyer has shown: licence, exemption, and the limit that warns. An issued invoice stays as it is. */
export const buyerAmend = defineSaleCommand({
  name: 'buyer.amend',
  summary: 'Sets the licence, the tax exemption and the limit of a buyer.',
  logLabel: 'Buyer amended',
  stations: ['till', 'office'],
  untilClosed: true,
  input: z.strictObject({
    saleId: rowId,
    buyerNo: partyNumber,
    ...shapeOf(BUYER_FIELDS),
    taxExempt: flag,
  }),
  run(context, { saleId, buyerNo, ...fields }) {
    const before = buyerByNumber(context.book, saleId, buyerNo);
    if (!before) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
    if (fields.taxExempt && fields.exemptNo === '') {
      return refuse('missing', 'Enter the number of the exemption, as the certificate shows it.', 'exemptNo');
    }
    updateRow(context, buyer, before.id, factsOfSaid(BUYER_FIELDS, fields));
    return accept({ buyerNo });
  },
});

export const buyerClear = defineSaleCommand({
  name: 'buyer.clear',
  summary: 'Says whether a buyer is cleared to buy.',
  logLabel: 'Buyer cleared',
  stations: ['till', 'office'],
  untilClosed: true,
  input: z.strictObject({ saleId: rowId, buyerNo: partyNumber, cleared: flag }),
  run(context, { saleId, buyerNo, cleared }) {
    const before = buyerByNumber(context.book, saleId, buyerNo);
    if (!before) return refuse('unknown', `There is no buyer number ${buyerNo}: check the card.`, 'buyerNo');
    if (before.cleared === cleared) {
      return refuse('already', `Buyer ${buyerNo} is ${cleared ? 'already' : 'not'} cleared.`, 'cleared');
    }
    updateRow(context, buyer, before.id, { cleared, clearedBy: cleared ? context.worker : '' });
    return accept({ buyerNo, cleared });
  },
});

/** Gives last year's buyers the numbers they had, in one act. Nobody is cleared by it: their papers are looked at first. */
export const buyersCarry = defineSaleCommand({
  name: 'buyers.carry',
  summary: 'Registers the buyers of an earlier sale again under the same numbers, not cleared.',
  logLabel: 'Buyers of last year carried over',
  stations: ['till', 'office'],
  input: z.strictObject({
    saleId: rowId,
    /** The sale whose buyers come again; null for the newest earlier one that had buyers. */
    fromSaleId: rowId.nullable().default(null),
    /** How many buyers were seen to come again. */
    seen: seenCount,
  }),
  run({ sale, ...context }, { saleId, fromSaleId, seen }) {
    if (sale.stage === 'closed') return refuse('wrong_stage', 'The sale is closed: no buyer can be added.', 'saleId');
    const from = fromSaleId ?? lastSaleWithBuyers(context.book, sale);
    if (fromSaleId !== null && (fromSaleId === saleId || !saleById(context.book, fromSaleId))) {
      return refuse('unknown', 'Choose an earlier sale of the book.', 'fromSaleId');
    }
    const earlier = from === undefined ? [] : namedBuyersOf(context.book, from);
    const decided = decideCarry(earlier, buyersOfSale(context.book, saleId));
    if (!decided.ok) return decided;
    const { registered, numberTaken } = decided.value;
    const looked = decideSeen(registered.length, seen, 'buyer');
    if (!looked.ok) return looked;
    for (const one of registered) carry(context, saleId, one);
    const numbers = (rows: readonly BuyerRow[]) => rows.map(({ buyerNo }) => buyerNo);
    return accept({ registered: numbers(registered), numberTaken: numbers(numberTaken) });
  },
});

function carry(context: CommandContext, saleId: number, row: BuyerRow): void {
  const { buyerNo, personId } = row;
  const person = personById(context.book, personId);
  if (!person) throw new RangeError(`buyer ${buyerNo} is nobody`);
  saveParticulars(context, { saleId, personId }, { ...person, personId: person.ref });
  addRow(context, buyer, {
    saleId,
    buyerNo,
    personId,
    ...factsOfRow(BUYER_FIELDS, row),
    cleared: false,
    clearedBy: '',
  });
}
