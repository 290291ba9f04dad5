import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saleById } from '#db/book/find.ts';
import { checksOfSale } from '#db/payment/queries.ts';
import { payoutSellers } from '#db/settlement/payout.ts';
import { checkReplay } from '#db/verify/verify-book.ts';
import { type Hall, openHall, rowsOf } from '#tests/support/hall.ts';

const payment = { saleId: 1, direction: 'in', buyerNo: 10, method: 'cash', amount: '50.00' } as const;

/**
 * Seller 1 sold lot 1 to buyer 10, sellers 2 are Bea and Cal, two parts to one, and sold lot 2 to buyer 11.
 * By hand: each lot 100.00. Seller 1 gets 100.00 − 6.00 − 0.25 − 5.00 = 88.75; sellers 2 get 88.75, in thirds 59.17 and
 * 29.58. A buyer owes 100.00, 5.00 premium and 6.83 tax: 111.83.
 */
function soldHall(): Hall {
  const hall = openHall();
  const { saleId, must } = hall;
  const partners = [
    { personId: 2, parts: 2 },
    { personId: 3, parts: 1 },
  ];
  must('seller.register', { saleId, sellerNo: 2, partners });
  for (const [sellerNo, buyerNo] of [
    [1, 10],
    [2, 11],
  ] as const) {
    must('lot.add', { saleId, sellerNo, goods: 'raccoon', count: '10' });
    const sold = { kind: 'sold', price: '10.00', buyerNo, answered: ['seller_buys'] } as const;
    must('outcome.record', { saleId, lotNo: String(sellerNo), ...sold });
  }
  return hall;
}

function issuedHall(): Hall {
  const hall = soldHall();
  hall.must('settlement.issue', { saleId: 1, sellerNo: null, seen: 2 });
  return hall;
}

const out = { saleId: 1, direction: 'out', sellerNo: 1, method: 'cash', amount: '88.75' } as const;

/** The partners behind number 2 have bought and not paid yet. */
const DUE_AS_BUYER = ['owes_as_buyer'] as const;

describe('payment.record', () => {
  it('takes money from a buyer and pays a partner', () => {
    const { book, must } = issuedHall();
    must('payment.record', { ...payment, reference: '1041' });
    must('payment.record', { ...out, personId: 1, method: 'check', amount: '12.5' });
    expect(rowsOf(book).payment).toMatchObject([
      {
        direction: 'in',
        buyer_id: 1,
        seller_id: null,
        amount_cents: 5000,
        reference: '1041',
        paid_at: '2026-02-28T10:00:00Z',
      },
      { direction: 'out', buyer_id: null, seller_id: 1, person_id: 1, amount_cents: 1250 },
    ]);
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true });
  });

  const { refusesUntyped } = openHall();
  it.each([
    [{ saleId: 9 }, 'unknown', 'saleId'],
    [{ buyerNo: 9 }, 'unknown', 'buyerNo'],
    [{ buyerNo: null, sellerNo: 9 }, 'unknown', 'sellerNo'],
    [{ personId: 99 }, 'unknown', 'personId'],
    [{ personId: 3 }, 'not_allowed', 'personId'],
    [{ sellerNo: 1 }, 'missing', 'buyerNo'],
    [{ amount: '0' }, 'malformed', 'amount'],
    [{ amount: '-5' }, 'malformed', 'amount'],
    [{ amount: '12,5' }, 'malformed', 'amount'],
    [{ method: 'fur' }, 'malformed', 'method'],
    [{ direction: 'up' }, 'malformed', 'direction'],
    [{ answered: ['anything'] }, 'malformed', 'answered.0'],
  ] as const)('refuses %j', (over, code, field) => {
    refusesUntyped('payment.record', { ...payment, ...over }, { code, field });
  });

  it('refuses a closed sale', () => {
    openHall({ stage: 'closed' }).refuses('payment.record', payment, { code: 'wrong_stage', field: 'saleId' });
  });
});

describe('the till', () => {
  it('takes money, gives buyers back what they overpaid, and pays no seller', () => {
    const { book, must, refuses } = issuedHall();
    const said = refuses('payment.record', out, { code: 'not_allowed', field: 'sellerNo' }, 'till');
    expect(said).toBe('Sellers are paid at Payout: send seller number 1 to the treasurer.');
    // Nor by naming a partner, nor a number that nobody has.
    refuses('payment.record', { ...out, personId: 1, method: 'check' }, { code: 'not_allowed' }, 'till');
    refuses('payment.record', { ...out, sellerNo: 9 }, { code: 'not_allowed' }, 'till');
    must('payment.record', { ...payment, amount: '120.00', answered: ['more_than_owed'] }, 'till');
    // 120.00 − 111.83.
    must('payment.record', { ...payment, direction: 'out', amount: '8.17' }, 'till');
    const deposit = { ...out, direction: 'in', amount: '5.00', answered: ['more_than_owed'] } as const;
    must('payment.record', deposit, 'till');
    must('payment.record', out, 'payout');
    must('payment.record', { ...out, amount: '5.00' }, 'office');
    const moved = (rowsOf(book).payment as { direction: string; amount_cents: number }[]).map((row) => [
      row.direction,
      row.amount_cents,
    ]);
    expect(moved).toEqual([
      ['in', 12_000],
      ['out', 817],
      ['in', 500],
      ['out', 8875],
      ['out', 500],
    ]);
    // The station is in the log, so that each entry is decided alike when it is given again.
    expect(checkReplay(book.sqlite)).toMatchObject({ ok: true, difference: null });
  });
});

describe('money to a seller number', () => {
  it('is paid once: the second time says what was paid and when', () => {
    const { must, refuses } = issuedHall();
    must('payment.record', out);
    const said = refuses('payment.record', { ...out, personId: 1 }, { code: 'already', field: 'amount' });
    expect(said).toMatch(/^Ada Birch is already paid: \$88\.75 was paid at \d{1,2}:\d\d [AP]M UTC\. Nothing is due/);
    refuses('payment.record', { ...out, amount: '0.01' }, { code: 'already' });
  });

  it('is never more than what is still owed', () => {
    const { must, refuses } = issuedHall();
    must('payment.record', { ...out, amount: '80.00' });
    const said = refuses('payment.record', { ...out, amount: '8.76' }, { code: 'too_large', field: 'amount' });
    expect(said).toMatch(/^Ada Birch is still owed \$8\.75 on seller number 1: \$80\.00 was paid at .* no more than/);
    must('payment.record', { ...out, amount: '8.75' });
  });

  it('goes to its partners only, and says to which of several', () => {
    const { must, refuses } = issuedHall();
    refuses('payment.record', { ...out, personId: 3 }, { code: 'not_allowed', field: 'personId' });
    const both = { ...out, sellerNo: 2, amount: '59.17', answered: [...DUE_AS_BUYER] } as const;
    expect(refuses('payment.record', both, { code: 'missing', field: 'personId' })).toContain('2 partners');
    refuses('payment.record', { ...both, personId: 3 }, { code: 'too_large', field: 'amount' });
    must('payment.record', { ...both, personId: 2 });
    refuses('payment.record', { ...both, personId: 2 }, { code: 'already' });
    must('payment.record', { ...both, personId: 3, amount: '29.58' });
  });

  it('asks for a sheet that is still right, as a check does', () => {
    const hall = soldHall();
    const { must, refuses } = hall;
    expect(refuses('payment.record', out, { code: 'wrong_stage', field: 'sellerNo' })).toContain('no sheet');
    must('settlement.issue', { saleId: 1, sellerNo: 1 });
    const right = { lotId: 1, replacesId: 1, kind: 'sold', price: '9.00', buyerNo: 10, reason: 'misheard' } as const;
    must('outcome.correct', right, 'block');
    expect(refuses('payment.record', out, { code: 'wrong_stage' })).toContain('correction sheet');
    must('settlement.correct', { saleId: 1, sellerNo: 1, reason: 'misheard' });
    // 90.00 − 5.40 − 0.25 − 5.00.
    refuses('payment.record', { ...out, amount: '79.36' }, { code: 'too_large' });
    must('payment.record', { ...out, amount: '79.35' });
  });

  it('waits for the buyers where the sale says so', () => {
    const { must, refuses } = issuedHall();
    must('payout.policy', { saleId: 1, sellersWait: true, statementDays: 10 });
    expect(refuses('payment.record', out, { code: 'wrong_stage', field: 'sellerNo' })).toContain('buyer 10');
    must('payment.record', { ...payment, amount: '111.83' });
    must('payment.record', out);
  });

  it('by check bears a number that is on no other check of ours', () => {
    const { book, must, refuses } = issuedHall();
    must('check.write', { saleId: 1, sellerNo: 1, firstNumber: 1041 });
    const byHand = {
      ...out,
      sellerNo: 2,
      personId: 2,
      method: 'check',
      amount: '10.00',
      answered: [...DUE_AS_BUYER],
    } as const;
    const taken = { code: 'taken', field: 'reference' } as const;
    expect(refuses('payment.record', { ...byHand, reference: 'No. 1041' }, taken)).toContain('Check 1041');
    const first = must('payment.record', { ...byHand, reference: '1042' });
    refuses('payment.record', { ...byHand, reference: 'Check 1042' }, taken);
    // A check recorded by hand is in nobody's pile any more.
    refuses(
      'check.write',
      { saleId: 1, sellerNo: 2, firstNumber: 1042, answered: [...DUE_AS_BUYER] },
      { code: 'taken', field: 'firstNumber' },
    );
    // One that was recorded wrong is recorded again.
    must('payment.void', { paymentId: first.paymentId, reason: 'for the other partner' });
    must('payment.record', { ...byHand, personId: 3, reference: '1042' });
    // Cash has no number, and the check of a buyer has one of theirs.
    must('payment.record', { ...byHand, method: 'cash', reference: '1041' });
    must('payment.record', { ...payment, method: 'check', reference: '1041' });
    expect(checksOfSale(book, 1).map(({ number }) => number)).toEqual([1041]);
  });

  it('is taken from a seller who owes; more than that is asked', () => {
    const { must, refuses } = openHall();
    const owed = { saleId: 1, direction: 'in', sellerNo: 1, method: 'cash', amount: '5.00' } as const;
    must('payment.record', owed);
    const said = refuses('payment.record', owed, { code: 'needs_answer', field: 'more_than_owed' });
    expect(said).toMatch(/^Seller number 1 owes nothing, and .*\. \$5\.00 was taken at .*M UTC\. Take it anyway\?$/);
    refuses('payment.record', { ...owed, personId: 3 }, { code: 'not_allowed', field: 'personId' });
    must('payment.record', { ...owed, answered: ['more_than_owed'] });
  });
});

describe('money of a buyer', () => {
  it('above what is owed is asked, with what was taken and when, and taken once somebody said yes', () => {
    const { book, must, refuses } = soldHall();
    must('payment.record', { ...payment, amount: '111.83' });
    const again = { ...payment, amount: '111.83' } as const;
    const said = refuses('payment.record', again, { code: 'needs_answer', field: 'more_than_owed' });
    expect(said).toMatch(
      / That is \$111\.83 too much\. \$111\.83 was taken at \d{1,2}:\d\d [AP]M UTC\. Take it anyway\?$/,
    );
    must('payment.record', { ...again, answered: ['more_than_owed'] });
    expect(rowsOf(book).payment).toHaveLength(2);
  });

  it('before anything was bought is a deposit, and asked too', () => {
    const { must, refuses } = openHall();
    expect(refuses('payment.record', payment, { code: 'needs_answer' })).toBe(
      'Buyer 10 owes nothing, and you typed $50.00. That is $50.00 too much. Take it anyway?',
    );
    must('payment.record', { ...payment, answered: ['more_than_owed'] });
  });

  it('is handed back up to what was overpaid', () => {
    const { must, refuses } = soldHall();
    const back = { ...payment, direction: 'out', amount: '8.17' } as const;
    expect(refuses('payment.record', back, { code: 'already', field: 'amount' })).toContain('nothing to get back');
    must('payment.record', { ...payment, amount: '120.00', answered: ['more_than_owed'] });
    const more = { ...back, amount: '8.18', answered: ['more_than_owed'] } as const;
    expect(refuses('payment.record', more, { code: 'too_large', field: 'amount' })).toContain('overpaid by $8.17');
    must('payment.record', back);
    expect(refuses('payment.record', back, { code: 'already' })).toContain('$8.17 was handed back at');
  });
});

/** What is done at one sale by several workers, in any order. */
const act = fc.oneof(
  fc.record({
    command: fc.constant('payment.record'),
    input: fc.record({
      ...{ saleId: fc.constant(1), direction: fc.constantFrom('out', 'out', 'in') },
      ...{ sellerNo: fc.constantFrom(1, 2), personId: fc.constantFrom(1, 2, 2, 3, null) },
      ...{ method: fc.constantFrom('cash', 'check'), reference: fc.constantFrom('', '7', '8', '9') },
      amount: fc.constantFrom('88.75', '59.17', '29.58', '20.00', '0.01'),
      answered: fc.constantFrom([], ['more_than_owed']),
    }),
  }),
  fc.record({
    command: fc.constant('check.write'),
    input: fc.record({
      ...{ saleId: fc.constant(1), sellerNo: fc.constantFrom(1, 2, null) },
      firstNumber: fc.constantFrom(7, 8, 9),
    }),
  }),
);
const worker = fc.constantFrom('Ada', 'Bo', 'Cy');

function owingOf({ book }: Hall): Map<string, number> {
  const sale = saleById(book, 1);
  if (!sale) throw new Error('the sale is in the book');
  const accounts = payoutSellers(book, sale).flatMap((seller) =>
    seller.accounts.map(({ personId, owingCents }) => [`${seller.sellerNo} ${personId}`, owingCents] as const),
  );
  return new Map(accounts);
}

describe('any payments of several workers', () => {
  it('pay no partner more than is owed, and no check number twice', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(act, worker), { minLength: 12, maxLength: 25 }), (acts) => {
        const hall = issuedHall();
        for (const [{ command, input }, name] of acts) {
          hall.give(command, input, { worker: name });
          expect([...owingOf(hall)].filter(([, owing]) => owing < 0)).toEqual([]);
        }
        const used = hall.book.sqlite
          .prepare("SELECT replace(reference, 'Check ', '') FROM payment WHERE method = 'check' AND direction = 'out'")
          .pluck()
          .all()
          .filter((number) => number !== '');
        expect(new Set(used).size).toBe(used.length);
        hall.book.close();
      }),
      { numRuns: 40 },
    );
  });
});
