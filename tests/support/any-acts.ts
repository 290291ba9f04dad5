/** Random acts at a sale. Numbers come from small ranges, so that acts meet: the same lot, the same tag, the same buyer. */
import fc from 'fast-check';
import type { Book } from '#db/open.ts';
import { QUESTIONS } from '#lib/decide-outcome.ts';
import { PAYMENT_QUESTIONS } from '#lib/payout/decide-payment.ts';
import { bobcatTag } from '#tests/support/hall.ts';

/** A command, and its input, which may refer to what stands in the book by then. */
export interface Act {
  readonly command: string;
  input(book: Book): Record<string, unknown>;
}

const sale = fc.constantFrom(1, 1, 2);
const number = fc.integer({ min: 1, max: 7 });
const lotNo = fc.integer({ min: 1, max: 5 }).map(String);
const buyerNo = fc.constantFrom(10, 11, 12, 13);
const price = fc.constantFrom('5.00', '7.25', '7.30', '0.25', '125.00', '0.10');
const answered = fc.constantFrom([], [...QUESTIONS], [...QUESTIONS]);
const tag = fc.record({
  tag: fc.integer({ min: 1, max: 6 }).map((serial) => bobcatTag(serial).tag),
  condition: fc.constantFrom('intact', 'intact', 'intact', 'broken', 'replacement'),
});
const tags = fc.array(tag, { maxLength: 3 });
const piece = {
  goods: fc.constant('raccoon'),
  count: fc.constantFrom('3', '11'),
  minimum: fc.constantFrom('', '6.00'),
};
const said = fc.oneof(
  fc.record({ ...piece, donated: fc.boolean() }),
  fc.record({ goods: fc.constant('castor'), weight: fc.constantFrom('7.35', '0.5') }),
  fc.record({ goods: fc.constant('bobcat'), count: fc.constantFrom('1', '2'), tags }),
);
const outcome = fc.oneof(
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('sold'), price, buyerNo, answered }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constantFrom('passed', 'withdrawn') }) },
);

function act(command: string, input: fc.Arbitrary<Record<string, unknown>>): fc.Arbitrary<Act> {
  return input.map((value) => ({ command, input: () => value, toString: () => `${command} ${JSON.stringify(value)}` }));
}

/** An act on what stands for a lot at that moment. */
function onStanding(command: string, input: fc.Arbitrary<Record<string, unknown>>): fc.Arbitrary<Act> {
  return act(command, input).map(({ input: given, ...rest }) => ({
    ...rest,
    input: (book) => ({ ...given(book), replacesId: newestOf(book, given(book).lotId) }),
  }));
}

function newestOf(book: Book, lotId: unknown): number {
  const find = book.sqlite.prepare('SELECT max(id) FROM outcome WHERE lot_id = ?').pluck();
  return (find.get(lotId) as number | null) ?? 1;
}

/** An act with a sold lot, its buyer and its pieces, whichever of these the act does not say. */
function onSold(command: string, input: fc.Arbitrary<Record<string, unknown>>): fc.Arbitrary<Act> {
  return withRow(act(command, input), SOLD, ({ sale_id: saleId, buyer_no: buyerNo, pieces, lot_number: no }) => ({
    ...{ saleId, buyerNo, pieces: String(pieces), lots: [String(no)] },
  }));
}

function onHanded(command: string, input: fc.Arbitrary<Record<string, unknown>>): fc.Arbitrary<Act> {
  return withRow(act(command, input), HANDED, ({ sale_id: saleId, lot_number: no }) => ({ saleId, lotNo: String(no) }));
}

function onDrawer(command: string, input: fc.Arbitrary<Record<string, unknown>>): fc.Arbitrary<Act> {
  return withRow(act(command, input), 'SELECT max(id) AS id FROM drawer_entry', ({ id: entryId }) => ({
    entryId: entryId ?? 1,
  }));
}

const SOLD = `SELECT lot.sale_id, buyer_no, coalesce(count, 1) AS pieces, lot_number FROM outcome
  JOIN lot ON lot.id = lot_id JOIN buyer ON buyer.id = buyer_id
  WHERE kind = 'sold' AND outcome.id NOT IN (SELECT replaces_id FROM outcome WHERE replaces_id IS NOT NULL)
  ORDER BY outcome.id DESC LIMIT 1`;
const HANDED = `SELECT lot.sale_id, lot_number FROM handover JOIN lot ON lot.id = lot_id ORDER BY handover.id DESC LIMIT 1`;

/** An act of which three in four are said of a row of the book, and the others of anything at all. */
function withRow(
  acts: fc.Arbitrary<Act>,
  sql: string,
  said: (row: Record<string, unknown>) => Record<string, unknown>,
): fc.Arbitrary<Act> {
  return fc.tuple(acts, fc.constantFrom(true, true, true, false)).map(([one, fitting]) => ({
    ...one,
    input: (book) => {
      const row = fitting ? (book.sqlite.prepare(sql).get() as Record<string, unknown> | undefined) : undefined;
      return { ...one.input(book), ...(row ? said(row) : {}) };
    },
  }));
}

/** A tag of a lot that was called: of the newest, any. */
const TAGGED = `SELECT lot.sale_id, lot_number, tag FROM outcome JOIN lot ON lot.id = outcome.lot_id
  JOIN tag ON tag.lot_id = lot.id ORDER BY outcome.id DESC, tag.id DESC LIMIT 1`;

/** What adds up to a lot of two, three or eleven pieces. */
const PARTS = [
  [1, 1],
  [1, 2],
  [5, 6],
].map((parts) => parts.map((count) => ({ count: String(count) })));
const reason = fc.constantFrom('misheard', 'misheard', 'misheard', '');
const id = number;

const mended = fc.record({
  saleId: sale,
  lotNo,
  tag: tag.map((one) => one.tag),
  found: fc.constantFrom('broken', 'replaced', 'whole'),
  replacement: fc.integer({ min: 1, max: 9 }).map((serial) => `US-CITES FWS-REPL 00${serial}`),
  reason,
});
const partners = fc.array(fc.record({ personId: number, parts: fc.constantFrom(1, 2, 3) }), { maxLength: 3 });
const party = fc.oneof(fc.record({ buyerNo }), fc.record({ sellerNo: fc.constantFrom(1, 2, 3) }));
const paid = fc.record({
  saleId: sale,
  direction: fc.constantFrom('in', 'out'),
  method: fc.constantFrom('cash', 'check', 'card', 'other'),
  amount: price,
  answered: fc.constantFrom([], [...PAYMENT_QUESTIONS], [...PAYMENT_QUESTIONS]),
});
const charged = fc.record({
  saleId: sale,
  sellerNo: fc.constantFrom(1, 2, 3),
  kind: fc.constantFrom('dues', 'advance', 'adjustment'),
  amount: fc.constantFrom('25.00', '-1.56', '0.01'),
  how: fc.constantFrom('deducted', 'cash'),
  note: fc.constantFrom('', 'miscounted'),
});
const left = fc.record({ saleId: sale, lotNo, buyerNo, price, kind: fc.constantFrom('written', 'left', 'under') });
const exemptNo = fc.constantFrom('TX-1', '');
const handed = fc.record({
  saleId: sale,
  buyerNo,
  lots: fc.array(lotNo, { minLength: 1, maxLength: 2 }),
  pieces: fc.constantFrom('1', '2', '3', '11'),
  takenBy: fc.constantFrom('Łucja Żak', ''),
});
const notes = fc.record({
  denomination: fc.constantFrom('20', '0.25', '0.25', '20', '0.30'),
  pieces: fc.constantFrom('1', '7', ''),
});
const drawn = fc.record({
  saleId: sale,
  kind: fc.constantFrom('opened', 'added', 'taken', 'counted', 'counted', 'closed'),
  pieces: fc.array(notes, { maxLength: 2 }),
  checks: fc.constantFrom('', '7.25'),
  note: fc.constantFrom('', 'counted twice'),
});
// Most sales go on selling, or little else could be tried.
const stage = fc.constantFrom('selling', 'selling', 'selling', 'intake', 'settling', 'closed');
/** How many were seen before an act on everybody, or typed to end the bidding. */
const seen = fc.constantFrom(1, 1, 2, 3, 4);

const TILL: readonly fc.WeightedArbitrary<Act>[] = [
  { weight: 2, arbitrary: act('payment.void', fc.record({ paymentId: fc.constantFrom(1, 2, 3), reason })) },
  { weight: 2, arbitrary: act('buyer.clear', fc.record({ saleId: sale, buyerNo, cleared: fc.boolean() })) },
  { weight: 1, arbitrary: act('buyer.amend', fc.record({ saleId: sale, buyerNo, taxExempt: fc.boolean(), exemptNo })) },
  { weight: 1, arbitrary: act('buyers.carry', fc.record({ saleId: fc.constant(2), seen })) },
  { weight: 5, arbitrary: act('invoice.issue', fc.record({ saleId: sale, buyerNo })) },
  { weight: 12, arbitrary: onSold('handover.record', handed) },
  { weight: 8, arbitrary: onHanded('handover.return', fc.record({ saleId: sale, lotNo, reason })) },
  { weight: 3, arbitrary: act('sale.handover', fc.record({ saleId: sale, unpaid: fc.boolean() })) },
  { weight: 9, arbitrary: act('drawer.record', drawn) },
  { weight: 6, arbitrary: onDrawer('drawer.void', fc.record({ reason })) },
];

/** One act at the till, or a payment or a correction beside it. */
export const tillAct: fc.Arbitrary<Act> = fc.oneof(
  ...TILL,
  { weight: 6, arbitrary: act('payment.record', fc.tuple(paid, party).map(merge)) },
  {
    weight: 4,
    arbitrary: onStanding('outcome.correct', fc.tuple(fc.record({ lotId: id, reason }), outcome).map(merge)),
  },
);

const firstNumber = fc.integer({ min: 1, max: 60 });
const sellerNo = fc.constantFrom(1, 1, 2, 3, null);

const PAYOUT: readonly fc.WeightedArbitrary<Act>[] = [
  { weight: 5, arbitrary: act('check.write', fc.record({ saleId: sale, sellerNo, firstNumber, seen })) },
  {
    weight: 8,
    arbitrary: act('check.reissue', fc.record({ checkId: fc.constantFrom(1, 2, 3), number: firstNumber, reason })),
  },
  { weight: 5, arbitrary: act('settlement.correct', fc.record({ saleId: sale, sellerNo, reason })) },
  {
    weight: 1,
    arbitrary: act(
      'payout.policy',
      fc.record({ saleId: sale, sellersWait: fc.constantFrom(false, false, true), statementDays: fc.constant(10) }),
    ),
  },
];

const taken = fc.record({
  saleId: sale,
  personId: fc.constantFrom(1, 1, 2, 3),
  sellerNo: fc.constantFrom(1, 1, null),
  how: fc.constantFrom('deducted', 'cash', 'cash', 'check', 'card'),
  amount: fc.constantFrom('25.00', '0.01'),
});
const listed = fc.array(
  fc.constantFrom(
    { goods: 'raccoon', count: '3' },
    { goods: 'bobcat', count: '1' },
    { goods: 'bobcat', count: '2', tags: 'US-CITES WY BOB 2025 000101-000102' },
  ),
  { minLength: 1, maxLength: 2 },
);

const INTAKE: readonly fc.WeightedArbitrary<Act>[] = [
  { weight: 4, arbitrary: act('dues.take', taken) },
  { weight: 2, arbitrary: act('dues.void', fc.record({ duesId: fc.constantFrom(1, 2, 3), reason })) },
  { weight: 2, arbitrary: act('lots.add', fc.record({ saleId: sale, sellerNo: fc.constantFrom(1, 2), rows: listed })) },
];

/** One act of the treasurer, or what comes in between: a payment, a correction, a charge. */
export const payoutAct: fc.Arbitrary<Act> = fc.oneof(
  ...PAYOUT,
  { weight: 4, arbitrary: act('settlement.issue', fc.record({ saleId: sale, sellerNo, seen })) },
  { weight: 4, arbitrary: act('payment.record', fc.tuple(paid, party).map(merge)) },
  { weight: 5, arbitrary: act('payment.void', fc.record({ paymentId: fc.constantFrom(1, 1, 2, 3), reason })) },
  { weight: 2, arbitrary: act('charge.add', charged) },
  { weight: 2, arbitrary: act('dues.take', taken) },
  { weight: 2, arbitrary: act('invoice.issue', fc.record({ saleId: sale, buyerNo })) },
  { weight: 2, arbitrary: act('drawer.record', drawn) },
  {
    weight: 5,
    arbitrary: onStanding('outcome.correct', fc.tuple(fc.record({ lotId: id, reason }), outcome).map(merge)),
  },
);

/** A way to a corrected sheet, which needs three acts of one seller in a row: chance alone rarely goes it. */
export const CORRECTED_SHEET: readonly Act[] = [
  { command: 'settlement.issue', input: () => ({ saleId: 1, sellerNo: 2 }) },
  {
    command: 'outcome.correct',
    input: (book) => ({
      ...{ lotId: 5, replacesId: newestOf(book, 5), kind: 'sold', price: '7.75', buyerNo: 12 },
      ...{ reason: 'misheard', answered: ['seller_buys', 'buyer_not_cleared', 'price_unusual'] },
    }),
  },
  { command: 'settlement.correct', input: () => ({ saleId: 1, sellerNo: 2, reason: 'a price was misheard' }) },
];

/** One act; those of the table and the block come most often, as on the day. */
export const anyAct: fc.Arbitrary<Act> = fc.oneof(
  { weight: 1, arbitrary: act('person.enrol', fc.record({ name: fc.constantFrom('Dee Elm', 'Zoë Łęcka') })) },
  { weight: 2, arbitrary: act('seller.register', fc.record({ saleId: sale, partners })) },
  { weight: 1, arbitrary: act('buyer.register', fc.record({ saleId: sale, personId: number, cleared: fc.boolean() })) },
  {
    weight: 9,
    arbitrary: act(
      'lot.add',
      fc.tuple(fc.record({ saleId: sale, sellerNo: fc.constantFrom(1, 1, 2) }), said).map(merge),
    ),
  },
  { weight: 3, arbitrary: act('lot.amend', fc.tuple(fc.record({ lotId: id, tags }), said).map(merge)) },
  { weight: 3, arbitrary: act('lot.join', fc.record({ lotId: id, other: lotNo })) },
  { weight: 2, arbitrary: act('lot.divide', fc.record({ lotId: id, parts: fc.constantFrom(...PARTS) })) },
  { weight: 1, arbitrary: act('lot.move', fc.record({ lotId: id, sellerNo: fc.constantFrom(1, 2) })) },
  { weight: 1, arbitrary: act('lot.withdraw', fc.record({ lotId: id, reason })) },
  { weight: 1, arbitrary: act('lots.withdraw', fc.record({ saleId: sale, seen: fc.constantFrom(1, 2, 3), reason })) },
  { weight: 6, arbitrary: act('tags.set', fc.record({ lotId: id, tags })) },
  {
    weight: 4,
    arbitrary: withRow(act('tag.mend', mended), TAGGED, ({ sale_id: saleId, lot_number: no, tag: one }) => ({
      ...{ saleId, lotNo: String(no), tag: one },
    })),
  },
  { weight: 9, arbitrary: act('outcome.record', fc.tuple(fc.record({ saleId: sale, lotNo }), outcome).map(merge)) },
  {
    weight: 7,
    arbitrary: onStanding('outcome.correct', fc.tuple(fc.record({ lotId: id, reason }), outcome).map(merge)),
  },
  { weight: 7, arbitrary: onStanding('outcome.reopen', fc.record({ lotId: id, reason })) },
  { weight: 2, arbitrary: act('charge.add', charged) },
  { weight: 2, arbitrary: act('payment.record', fc.tuple(paid, party).map(merge)) },
  { weight: 3, arbitrary: fc.oneof(...INTAKE) },
  { weight: 8, arbitrary: fc.oneof(...TILL) },
  { weight: 2, arbitrary: fc.oneof(...PAYOUT) },
  { weight: 4, arbitrary: act('bid.leave', left) },
  { weight: 3, arbitrary: act('bid.retract', fc.record({ bidId: fc.constantFrom(1, 2, 3) })) },
  {
    weight: 1,
    arbitrary: act('settlement.issue', fc.record({ saleId: sale, sellerNo: fc.constantFrom(1, 2, null), seen })),
  },
  { weight: 1, arbitrary: act('sale.stage', fc.record({ saleId: sale, stage, reason, left: seen })) },
);

function merge([a, b]: readonly [Record<string, unknown>, Record<string, unknown>]): Record<string, unknown> {
  return { ...a, ...b };
}
