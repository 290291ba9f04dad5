/**
 * Random acts, one for each command. Numbers come from small ranges, so that acts meet: the same lot, the same tag, the
 * same buyer. Long because every command has its act here.
 */
import fc from 'fast-check';
import type { Station } from '#db/book/command.ts';
import type { Book } from '#db/book/open.ts';
import { type CommandName, findCommand, type InputOf } from '#db/commands.ts';
import { FEE_KEPT } from '#lib/bank/arrival.ts';
import { QUESTIONS } from '#lib/outcome/decide-outcome.ts';
import { OWES_AS_BUYER } from '#lib/payment/checks.ts';
import { PAYMENT_QUESTIONS } from '#lib/payment/decide-payment.ts';
import { CLOSE_QUESTIONS } from '#lib/sale/stage.ts';
import { bobcatTag, GOODS, SALE } from './hall.ts';

/** A command, and its input, which may refer to what stands in the book by then. */
export interface Act<N extends CommandName = CommandName> {
  readonly command: N;
  input(book: Book): InputOf<N>;
  /** Where it is given, if that is not where its command is mostly given. */
  readonly station?: Station;
}

/** Where an act is given: at the first station of its command, unless it names one. */
export function stationOf({ command, station }: Act): Station {
  return station ?? findCommand(command)?.stations[0] ?? 'office';
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
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('bought_back'), price, answered }) },
);

export function act<N extends CommandName>(command: N, input: fc.Arbitrary<InputOf<N>>): fc.Arbitrary<Act<N>> {
  return input.map((value) => ({ command, input: () => value, toString: () => `${command} ${JSON.stringify(value)}` }));
}

/** An act at the till, which pays no sellers, or at Payout, which does. */
function atTillOrPayout<N extends CommandName>(acts: fc.Arbitrary<Act<N>>): fc.Arbitrary<Act<N>> {
  return fc.tuple(acts, fc.constantFrom('till', 'payout')).map(([one, station]) => ({ ...one, station }));
}

/** An act on what stands for a lot at that moment. */
function onStanding<N extends 'outcome.correct' | 'outcome.reopen'>(
  command: N,
  input: fc.Arbitrary<InputOf<N>>,
): fc.Arbitrary<Act<N>> {
  return act(command, input).map(({ input: given, ...rest }) => ({
    ...rest,
    input: (book) => ({ ...given(book), replacesId: newestOf(book, given(book).lotId) }),
  }));
}

function newestOf(book: Book, lotId: number): number {
  return book.sqlite.prepare<[number], number>('SELECT max(id) FROM outcome WHERE lot_id = ?').pluck().get(lotId) ?? 1;
}

interface Sold {
  readonly saleId: number;
  readonly lotNo: string;
  readonly buyerNo: number;
  readonly pieces: string;
}

const SOLD = `SELECT lot.sale_id AS saleId, CAST(lot_number AS TEXT) AS lotNo, buyer_no AS buyerNo,
    CAST(coalesce(count, 1) AS TEXT) AS pieces
  FROM outcome JOIN lot ON lot.id = lot_id JOIN buyer ON buyer.id = buyer_id
  WHERE kind = 'sold' AND outcome.id NOT IN (SELECT replaces_id FROM outcome WHERE replaces_id IS NOT NULL)
  ORDER BY outcome.id DESC LIMIT 1`;
const HANDED = `SELECT lot.sale_id AS saleId, CAST(lot_number AS TEXT) AS lotNo
  FROM handover JOIN lot ON lot.id = lot_id ORDER BY handover.id DESC LIMIT 1`;
const NEWEST_ENTRY = 'SELECT coalesce(max(id), 1) AS entryId FROM drawer_entry';

/** An act of which three in four are said of a row of the book, and the others of anything at all. */
function withRow<N extends CommandName, R>(
  acts: fc.Arbitrary<Act<N>>,
  sql: string,
  said: (row: R) => Partial<InputOf<N>>,
): fc.Arbitrary<Act<N>> {
  return fc.tuple(acts, fc.constantFrom(true, true, true, false)).map(([one, fitting]) => ({
    ...one,
    input: (book) => {
      const row = fitting ? book.sqlite.prepare<[], R>(sql).get() : undefined;
      return { ...one.input(book), ...(row ? said(row) : {}) };
    },
  }));
}

/** Two lots that are still to be called, as a choice of lots names them. */
const TWO_OPEN = `SELECT sale_id AS saleId, group_concat(lot_number, '+') AS lots FROM (
    SELECT lot.sale_id, lot.lot_number FROM lot JOIN sale ON sale.id = lot.sale_id
    WHERE sale.stage = 'selling' AND lot.lot_letter = '' AND lot.id NOT IN (SELECT lot_id FROM standing_outcome)
    ORDER BY lot.id DESC LIMIT 2
  ) GROUP BY sale_id HAVING count(*) = 2`;

/** A tag of a lot that was called: of the newest, any. */
const TAGGED = `SELECT lot.sale_id AS saleId, CAST(lot_number AS TEXT) AS lotNo, tag FROM outcome JOIN lot ON lot.id = outcome.lot_id
  JOIN tag ON tag.lot_id = lot.id ORDER BY outcome.id DESC, tag.id DESC LIMIT 1`;

const CHECK_TAKEN = `SELECT id AS paymentId FROM live_payment WHERE direction = 'in' AND method = 'check'
  ORDER BY id DESC LIMIT 1`;

/** The newest check that was written and is neither void nor paid by the bank. */
const CHECK_OUT = `SELECT seller_check.id AS checkId FROM seller_check
  JOIN live_payment ON live_payment.id = payment_id
  JOIN journal_entry ON kind = 'payment' AND source_id = payment_id AND reverses_id IS NULL
  WHERE journal_entry.id NOT IN (SELECT entry_id FROM live_bank_mark) ORDER BY seller_check.id DESC LIMIT 1`;

/** The checks of the newest sale with some that were taken in and are in no deposit. */
const CHECKS_WAITING = `SELECT sale_id AS saleId, json_group_array(id) AS ids FROM live_payment
  WHERE direction = 'in' AND method = 'check'
    AND id NOT IN (SELECT payment_id FROM deposit_item JOIN live_deposit ON live_deposit.id = deposit_id)
  GROUP BY sale_id ORDER BY sale_id LIMIT 1`;

/** The newest entry of the bank account without a mark. */
const AT_THE_BANK = `SELECT entry_id AS entryId FROM posting WHERE account = 'Assets:Bank'
  AND entry_id NOT IN (SELECT entry_id FROM live_bank_mark) ORDER BY id DESC LIMIT 1`;

/** The newest mark by hand; what arrived is marked by its arrival. */
const MARKED = `SELECT entry_id AS entryId FROM live_bank_mark
  JOIN journal_entry ON journal_entry.id = entry_id WHERE kind <> 'arrival' ORDER BY live_bank_mark.id DESC LIMIT 1`;

/** The newest arrival that stands. */
const ARRIVED = `SELECT max(id) AS arrivalId FROM arrival WHERE voids_id IS NULL
  AND id NOT IN (SELECT voids_id FROM arrival WHERE voids_id IS NOT NULL) HAVING max(id) IS NOT NULL`;

/** What was paid by card or otherwise, and has not arrived. */
const LYING = `SELECT sale_id AS saleId, iif(account = 'Assets:Cards', 'card', 'other') AS method,
    printf('%d.%02d', sum(amount_cents) / 100, sum(amount_cents) % 100) AS amount
  FROM posting JOIN journal_entry ON journal_entry.id = entry_id
  WHERE account IN ('Assets:Cards', 'Assets:Other payments')
  GROUP BY sale_id, account HAVING sum(amount_cents) > 0 LIMIT 1`;

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

const firstNumber = fc.integer({ min: 1, max: 60 });
const sellerNo = fc.constantFrom(1, 1, 2, 3, null);
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
const corrected = fc.tuple(fc.record({ lotId: id, reason }), outcome).map(merge);
const ofSale = fc.record({ saleId: sale });
const planned = fc.constantFrom(
  { ...SALE, name: 'Spring Sale', held_on: '2026-04-18' },
  { ...SALE, name: 'Autumn Sale', held_on: '2026-10-03', season: '2026-27' },
);
const amended = { name: fc.constantFrom('Ada Birch', 'Ada Quill'), memberUntil: fc.constantFrom('', '2026-12-31') };
const goodsOf = {
  ...{ saleId: sale, by: fc.constant('piece'), reason },
  seasonLimit: fc.constantFrom(null, null, 40),
};
// Digests of nothing: no passphrase and no code has them.
const passphraseMark = fc.constant('a'.repeat(64));
const codeHash = fc.constant('0'.repeat(64));
const stations = fc.constantFrom(['office'] as const, ['intake', 'till'] as const);
const workerId = fc.constantFrom(1, 2);

/** What is drawn for each command: one that has no act here does not pass the compiler. */
export const RANDOM_ACTS: { readonly [N in CommandName]: fc.Arbitrary<Act<N>> } = {
  'association.set': act(
    'association.set',
    fc.record({ name: fc.constantFrom('Lantern Ridge Fur Harvesters', ''), paper: fc.constantFrom('letter', 'a4') }),
  ),
  'arrival.void': withRow(
    act('arrival.void', fc.record({ arrivalId: fc.constantFrom(1, 2), reason })),
    ARRIVED,
    (row: { readonly arrivalId: number }) => row,
  ),
  // Money by card or otherwise that lies there, if there is any.
  'bank.arrive': withRow(
    act(
      'bank.arrive',
      fc.record({
        ...{ saleId: sale, method: fc.constantFrom('card', 'other'), amount: fc.constantFrom('0.25', '5.00') },
        arrived: fc.constantFrom('0.01', '0.25'),
        answered: fc.constantFrom([FEE_KEPT], [FEE_KEPT], []),
      }),
    ),
    LYING,
    (row: { readonly saleId: number; readonly method: 'card' | 'other'; readonly amount: string }) => row,
  ),
  // Checks that wait, if there are any.
  'bank.deposit': withRow(
    act(
      'bank.deposit',
      fc.record({ saleId: sale, paymentIds: fc.constant([]), cash: fc.constantFrom('', '', '0.25', '5.00') }),
    ),
    CHECKS_WAITING,
    (row: { readonly saleId: number; readonly ids: string }) => ({
      ...{ saleId: row.saleId, paymentIds: JSON.parse(row.ids) as number[] },
    }),
  ),
  'bank.clear': withRow(
    act(
      'bank.clear',
      fc.record({
        entryIds: fc.array(id, { minLength: 1, maxLength: 2 }),
        day: fc.constantFrom('2026-02-28', '2027-01-01'),
      }),
    ),
    AT_THE_BANK,
    (row: { readonly entryId: number }) => ({ entryIds: [row.entryId], day: '2026-02-28' }),
  ),
  'bank.unclear': withRow(
    act('bank.unclear', fc.record({ entryIds: fc.array(id, { minLength: 1, maxLength: 2 }) })),
    MARKED,
    (row: { readonly entryId: number }) => ({ entryIds: [row.entryId] }),
  ),
  'bid.leave': act('bid.leave', left),
  'bid.retract': act('bid.retract', fc.record({ bidId: fc.constantFrom(1, 2, 3) })),
  'bid.move': act('bid.move', fc.record({ bidId: fc.constantFrom(1, 2, 3), lotNo, reason })),
  'bids.close': act('bids.close', ofSale),
  'bids.unanswered': act('bids.unanswered', ofSale),
  'bids.award': act('bids.award', ofSale),
  'bids.closing': act(
    'bids.closing',
    fc.record({ saleId: sale, closesAt: fc.constantFrom(null, '2026-02-28T12:00:00Z') }),
  ),
  'book.takeover': act(
    'book.takeover',
    fc.record({
      ...{ kind: fc.constantFrom('takeover', 'restore'), laptop: fc.constantFrom('table two', 'spare laptop') },
      ...{ told: fc.constantFrom('', 'https://192.168.1.10:3443'), above: fc.constantFrom(0, 0, 3), reason },
    }),
  ),
  'buyer.amend': act('buyer.amend', fc.record({ saleId: sale, buyerNo, taxExempt: fc.boolean(), exemptNo })),
  'buyer.clear': act('buyer.clear', fc.record({ saleId: sale, buyerNo, cleared: fc.boolean() })),
  'buyer.register': act('buyer.register', fc.record({ saleId: sale, personId: number, cleared: fc.boolean() })),
  'buyer.walkin': act('buyer.walkin', fc.record({ saleId: sale, licenceNo: fc.constantFrom('', 'FB-9') })),
  'buyers.carry': act('buyers.carry', fc.record({ saleId: fc.constant(2), seen })),
  'charge.add': act('charge.add', charged),
  'charge.waive': withRow(
    act('charge.waive', fc.record({ chargeId: fc.constantFrom(1, 1, 2, 3), reason })),
    'SELECT id AS chargeId FROM live_charge ORDER BY id DESC LIMIT 1',
    (row: { readonly chargeId: number }) => row,
  ),
  'check.bounce': withRow(
    act('check.bounce', fc.record({ paymentId: id, fee: fc.constantFrom('', '25.00', '0.10'), reason })),
    CHECK_TAKEN,
    (row: { readonly paymentId: number }) => row,
  ),
  'check.reissue': withRow(
    act('check.reissue', fc.record({ checkId: fc.constantFrom(1, 2, 3), number: firstNumber, reason })),
    CHECK_OUT,
    (row: { readonly checkId: number }) => row,
  ),
  'check.stop': withRow(
    act(
      'check.stop',
      fc.record({ checkId: fc.constantFrom(1, 2, 3), kind: fc.constantFrom('lost', 'stopped'), reason }),
    ),
    CHECK_OUT,
    (row: { readonly checkId: number }) => row,
  ),
  'check.write': act(
    'check.write',
    fc.record({
      saleId: sale,
      sellerNo,
      firstNumber,
      seen,
      answered: fc.constantFrom([], [OWES_AS_BUYER], [OWES_AS_BUYER]),
    }),
  ),
  'deposit.void': withRow(
    act('deposit.void', fc.record({ depositId: fc.constantFrom(1, 2, 3), reason })),
    'SELECT id AS depositId FROM live_deposit ORDER BY id DESC LIMIT 1',
    (row: { readonly depositId: number }) => row,
  ),
  'drawer.record': act('drawer.record', drawn),
  'drawer.void': withRow(
    act('drawer.void', fc.record({ entryId: id, reason })),
    NEWEST_ENTRY,
    (row: { readonly entryId: number }) => row,
  ),
  'dues.take': act('dues.take', taken),
  'dues.void': act('dues.void', fc.record({ duesId: fc.constantFrom(1, 2, 3), reason })),
  'goods.add': act(
    'goods.add',
    fc.record({ ...goodsOf, goods: fc.constantFrom('mink', 'raccoon'), name: fc.constant('Mink') }),
  ),
  'goods.amend': act(
    'goods.amend',
    fc.record({ ...goodsOf, goods: fc.constant('raccoon'), name: fc.constant('Raccoon') }),
  ),
  // With a sold lot, its buyer and its pieces, whichever of these the act does not say.
  'handover.record': withRow(act('handover.record', handed), SOLD, ({ lotNo: one, ...row }: Sold) => ({
    ...row,
    lots: [one],
  })),
  'handover.return': withRow(
    act('handover.return', fc.record({ saleId: sale, lotNo, reason })),
    HANDED,
    (row: Pick<Sold, 'saleId' | 'lotNo'>) => row,
  ),
  'intake.rules': act(
    'intake.rules',
    fc.record({ saleId: sale, licenceRequired: fc.constantFrom(false, false, true), duesUntil: fc.constant('') }),
  ),
  'invoice.issue': act('invoice.issue', fc.record({ saleId: sale, buyerNo })),
  'lot.add': act('lot.add', fc.tuple(fc.record({ saleId: sale, sellerNo: fc.constantFrom(1, 1, 2) }), said).map(merge)),
  'lot.amend': act('lot.amend', fc.tuple(fc.record({ lotId: id, tags }), said).map(merge)),
  'lot.divide': act('lot.divide', fc.record({ lotId: id, parts: fc.constantFrom(...PARTS) })),
  'lot.join': act('lot.join', fc.record({ lotId: id, other: lotNo })),
  'lot.move': act('lot.move', fc.record({ lotId: id, sellerNo: fc.constantFrom(1, 2) })),
  'lot.place': act('lot.place', fc.record({ saleId: sale, lotNo, before: fc.constantFrom(null, '1', '3') })),
  'lot.skip': act('lot.skip', fc.record({ saleId: sale, lotNo, wholeSeller: fc.boolean() })),
  'lot.withdraw': act('lot.withdraw', fc.record({ lotId: id, reason })),
  'lots.add': act('lots.add', fc.record({ saleId: sale, sellerNo: fc.constantFrom(1, 2), rows: listed })),
  'lots.withdraw': act('lots.withdraw', fc.record({ saleId: sale, seen: fc.constantFrom(1, 2, 3), reason })),
  'member.code': act('member.code', fc.record({ personId: number, codeHash, minutes: fc.constant(15) })),
  'member.enter': act('member.enter', fc.record({ codeHash })),
  'network.set': act(
    'network.set',
    fc.record({
      hosts: fc.constantFrom([] as const, ['hall.test'] as const),
      plainStaff: fc.boolean(),
      waitsForSecond: fc.boolean(),
      reason,
    }),
  ),
  'outcome.choice': withRow(
    act(
      'outcome.choice',
      fc.record({ saleId: sale, lots: fc.constantFrom('1+2', '4+5', '5+6'), price, buyerNo, answered }),
    ),
    TWO_OPEN,
    (row: { readonly saleId: number; readonly lots: string }) => row,
  ),
  'outcome.correct': onStanding('outcome.correct', corrected),
  'outcome.record': act('outcome.record', fc.tuple(fc.record({ saleId: sale, lotNo }), outcome).map(merge)),
  'outcome.reopen': onStanding('outcome.reopen', fc.record({ lotId: id, reason })),
  // Of a sold lot and its buyer, whichever of these the act does not say.
  'outcome.unpaid': withRow(
    act(
      'outcome.unpaid',
      fc.record({
        ...{ saleId: sale, buyerNo, lots: fc.array(lotNo, { maxLength: 2 }), reason },
        fate: fc.constantFrom('seller', 'association', 'again'),
      }),
    ),
    SOLD,
    ({ saleId, buyerNo: one, lotNo: lot }: Sold) => ({ saleId, buyerNo: one, lots: [lot] }),
  ),
  'payment.record': atTillOrPayout(act('payment.record', fc.tuple(paid, party).map(merge))),
  'payment.setoff': act(
    'payment.setoff',
    fc.record({ saleId: sale, buyerNo, sellerNo: number, personId: fc.constantFrom(1, 2, 2, 3), amount: price }),
  ),
  'payment.writeoff': act(
    'payment.writeoff',
    fc.record({
      saleId: sale,
      buyerNo: fc.option(buyerNo, { nil: null }),
      sellerNo: fc.constant(null),
      amount: price,
      reason,
    }),
  ),
  'payment.void': atTillOrPayout(act('payment.void', fc.record({ paymentId: fc.constantFrom(1, 1, 2, 3), reason }))),
  'payout.policy': act(
    'payout.policy',
    fc.record({ saleId: sale, sellersWait: fc.constantFrom(false, false, true), statementDays: fc.constant(10) }),
  ),
  'person.amend': act('person.amend', fc.record({ personId: number, ...amended })),
  'person.enrol': act('person.enrol', fc.record({ name: fc.constantFrom('Dee Elm', 'Zoë Łęcka') })),
  'person.forget': act('person.forget', fc.record({ personId: number, reason })),
  'prices.fewest': act('prices.fewest', fc.record({ fewest: fc.constantFrom(1, 2, 3) })),
  'prices.import': act(
    'prices.import',
    price.map((one) => ({
      file: 'old.csv',
      rows: [[2, { season: '1998-99', goods: 'mink', count: '40', price: one }] as const],
      replaces: one === '5.00',
    })),
  ),
  'sale.amend': act('sale.amend', fc.record({ saleId: sale, sale: planned, reason })),
  'sale.handover': act('sale.handover', fc.record({ saleId: sale, unpaid: fc.boolean() })),
  'sale.import': act('sale.import', fc.record({ sale: planned })),
  'sale.next': act(
    'sale.next',
    fc.record({
      ...{ likeSaleId: sale, name: fc.constant('Later Sale'), held_on: fc.constantFrom('2028-02-26', '2028-03-04') },
      ...{ season: fc.constant('2027-28'), season_closes_on: fc.constant('') },
    }),
  ),
  'sale.order': act(
    'sale.order',
    fc.record({ saleId: sale, order: fc.constantFrom('lot', 'seller', 'goods', 'hand') }),
  ),
  'sale.plan': act('sale.plan', fc.record({ sale: planned, goods: fc.constant(GOODS) })),
  'sale.stage': act(
    'sale.stage',
    fc.record({ saleId: sale, stage, reason, left: seen, answered: fc.constantFrom([], [...CLOSE_QUESTIONS]) }),
  ),
  'seller.register': act('seller.register', fc.record({ saleId: sale, partners })),
  'settlement.correct': act(
    'settlement.correct',
    fc.record({ saleId: sale, sellerNo: fc.constantFrom(1, 1, 2, 3), reason }),
  ),
  'settlement.issue': act('settlement.issue', fc.record({ saleId: sale, sellerNo, seen })),
  'tag.mend': withRow(
    act('tag.mend', mended),
    TAGGED,
    (row: { readonly saleId: number; readonly lotNo: string; readonly tag: string }) => row,
  ),
  'taking.record': act(
    'taking.record',
    fc.record({
      ...{ saleId: sale, kind: fc.constantFrom('raffle', 'door', 'donation', 'food', 'other') },
      ...{ method: fc.constantFrom('cash', 'check', 'card', 'other'), amount: price },
      note: fc.constantFrom('', 'a hat'),
    }),
  ),
  'taking.void': act('taking.void', fc.record({ takingId: fc.constantFrom(1, 1, 2, 3), reason })),
  'tags.set': act('tags.set', fc.record({ lotId: id, tags })),
  'worker.add': act('worker.add', fc.record({ name: fc.constantFrom('Odo', 'Pia'), stations, passphraseMark })),
  'worker.amend': act('worker.amend', fc.record({ workerId, stations, hasLeft: fc.boolean() })),
  'worker.passphrase': act('worker.passphrase', fc.record({ workerId, passphraseMark })),
  'worker.renew': act('worker.renew', fc.record({ passphraseMark })),
};

type Weights = Partial<Readonly<Record<CommandName, number>>>;

/** Acts of these commands, as often as their weights say; those that are still missing three times as often. */
function weighted(weights: Weights, missing: readonly string[] = []): fc.Arbitrary<Act> {
  const names = Object.keys(weights) as CommandName[];
  const times = (name: CommandName) => (weights[name] ?? 0) * (missing.includes(name) ? 3 : 1);
  return fc.oneof(...names.map((name) => ({ weight: times(name), arbitrary: RANDOM_ACTS[name] })));
}

/** An act of any command, each as often. */
export const actOfAnyCommand: fc.Arbitrary<Act> = fc.oneof(...Object.values(RANDOM_ACTS));

const TILL: Weights = {
  'outcome.unpaid': 4,
  ...{ 'payment.void': 2, 'buyer.clear': 2, 'buyer.amend': 1, 'buyers.carry': 1, 'invoice.issue': 5 },
  ...{ 'handover.record': 12, 'handover.return': 8, 'sale.handover': 3, 'drawer.record': 9, 'drawer.void': 6 },
  ...{ 'taking.record': 4, 'taking.void': 3, 'buyer.walkin': 1 },
};

/** One act at the till, or a payment or a correction beside it. */
export const TILL_WEIGHTS: Weights = { ...TILL, 'payment.record': 6, 'outcome.correct': 4 };
export const tillAct = weighted(TILL_WEIGHTS);

const PAYOUT: Weights = {
  'check.write': 5,
  'check.reissue': 8,
  'settlement.correct': 5,
  'payout.policy': 1,
  'payment.setoff': 12,
  'payment.writeoff': 2,
  ...{ 'check.stop': 2, 'check.bounce': 2 },
};

const ARRIVES: Weights = { 'bank.arrive': 5, 'arrival.void': 4 };
const BANK: Weights = { 'bank.deposit': 5, 'deposit.void': 5, 'bank.clear': 5, 'bank.unclear': 5, ...ARRIVES };

/** One act of the treasurer, or what comes in between: a payment, a correction, a charge. */
export const PAYOUT_WEIGHTS: Weights = {
  ...{ ...PAYOUT, ...BANK },
  ...{ 'settlement.issue': 4, 'payment.record': 4, 'payment.void': 5, 'charge.add': 2, 'charge.waive': 2 },
  ...{ 'dues.take': 2, 'invoice.issue': 2, 'drawer.record': 2, 'outcome.correct': 5 },
};
export const payoutAct = (missing: readonly string[]) => weighted(PAYOUT_WEIGHTS, missing);

/** What is still done once the sale is closed. */
export const AFTER_CLOSING: Weights = {
  ...BANK,
  ...{ 'check.stop': 9, 'check.reissue': 8, 'check.write': 12, 'check.bounce': 6 },
  ...{ 'payment.record': 9, 'payment.writeoff': 2, 'payment.void': 1 },
};
export const afterClosing = (missing: readonly string[]) => weighted(AFTER_CLOSING, missing);

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

const AT_THE_TABLE: Weights = {
  ...{ 'person.enrol': 1, 'seller.register': 2, 'buyer.register': 1, 'lot.add': 9, 'lot.amend': 3, 'lot.join': 3 },
  ...{ 'lot.divide': 2, 'lot.move': 1, 'lot.withdraw': 1, 'lots.withdraw': 1, 'tags.set': 6, 'tag.mend': 4 },
};
const AT_THE_BLOCK: Weights = {
  ...{ 'outcome.record': 9, 'outcome.correct': 7, 'outcome.reopen': 7, 'charge.add': 2, 'payment.record': 2 },
  ...{ 'bid.leave': 4, 'bid.retract': 3, 'settlement.issue': 1, 'sale.stage': 1 },
};

const DUES: Weights = { 'dues.take': 4, 'dues.void': 2, 'charge.waive': 2, 'lots.add': 2, 'book.takeover': 1 };

/** The commands that {@link anyAct} gives. */
export const ANY_WEIGHTS: Weights = { ...AT_THE_TABLE, ...AT_THE_BLOCK, ...DUES, ...TILL, ...PAYOUT };

/** One act; those of the table and the block come most often, as on the day. */
export const anyAct: fc.Arbitrary<Act> = fc.oneof(
  { weight: 70, arbitrary: weighted({ ...AT_THE_TABLE, ...AT_THE_BLOCK }) },
  { weight: 3, arbitrary: weighted(DUES) },
  { weight: 8, arbitrary: weighted(TILL) },
  { weight: 2, arbitrary: weighted(PAYOUT) },
);

function merge<A, B>([a, b]: readonly [A, B]): A & B {
  return { ...a, ...b };
}
