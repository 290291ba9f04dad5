/** Random acts at a sale. Numbers come from small ranges, so that acts meet: the same lot, the same tag, the same buyer. */
import fc from 'fast-check';
import type { Book } from '#db/open.ts';
import { QUESTIONS } from '#lib/decide-outcome.ts';
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

const reason = fc.constantFrom('misheard', 'misheard', 'misheard', '');
const id = number;

const partners = fc.array(fc.record({ personId: number, parts: fc.constantFrom(1, 2, 3) }), { maxLength: 3 });
const party = fc.oneof(fc.record({ buyerNo }), fc.record({ sellerNo: fc.constantFrom(1, 2, 3) }));
const paid = fc.record({
  saleId: sale,
  direction: fc.constantFrom('in', 'out'),
  method: fc.constantFrom('cash', 'check', 'card', 'other'),
  amount: price,
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
// Most sales go on selling, or little else could be tried.
const stage = fc.constantFrom('selling', 'selling', 'selling', 'intake', 'settling', 'closed');

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
  { weight: 6, arbitrary: act('tags.set', fc.record({ lotId: id, tags })) },
  { weight: 9, arbitrary: act('outcome.record', fc.tuple(fc.record({ saleId: sale, lotNo }), outcome).map(merge)) },
  {
    weight: 7,
    arbitrary: onStanding('outcome.correct', fc.tuple(fc.record({ lotId: id, reason }), outcome).map(merge)),
  },
  { weight: 7, arbitrary: onStanding('outcome.reopen', fc.record({ lotId: id, reason })) },
  { weight: 2, arbitrary: act('charge.add', charged) },
  { weight: 2, arbitrary: act('payment.record', fc.tuple(paid, party).map(merge)) },
  { weight: 4, arbitrary: act('bid.leave', left) },
  { weight: 3, arbitrary: act('bid.retract', fc.record({ bidId: fc.constantFrom(1, 2, 3) })) },
  { weight: 1, arbitrary: act('settlement.issue', fc.record({ saleId: sale, sellerNo: fc.constantFrom(1, 2, null) })) },
  { weight: 1, arbitrary: act('sale.stage', fc.record({ saleId: sale, stage, reason })) },
);

function merge([a, b]: readonly [Record<string, unknown>, Record<string, unknown>]): Record<string, unknown> {
  return { ...a, ...b };
}
