/** Random whole sales for laws: every term in use, ties likely, lots of every kind of outcome. */
import fc from 'fast-check';
import { emptyFacts, inFolder } from '#lib/field/fields.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import { lotNo } from '#lib/lot/number.ts';
import { cents } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import type {
  CardFee,
  Charge,
  Lot,
  Outcome,
  Payment,
  Sale,
  SaleFacts,
  Seller,
  Taking,
  Terms,
} from '#lib/sale/facts.ts';
import { buyer, goods, sale } from './facts.ts';

const KINDS = ['bobcat', 'raccoon', 'muskrat', 'castor', 'deer-hide'] as const;
const SELLERS = [1, 2, 3, 7] as const;
const BUYERS = [10, 11, 56] as const;

const anyCents = (max: number) => fc.integer({ min: 0, max }).map(cents);
const anyRate = fc
  .oneof(fc.constantFrom('0', '2.5', '3.75', '5', '6', '7.5', '10', '12.5', '100'), fc.integer({ min: 0, max: 9999 }))
  .map((value) => rate(typeof value === 'string' ? value : `${value % 100}.${String(value).padStart(4, '0')}`));
const anyRates = fc.record({ member: anyRate, guest: anyRate });

export const anyTerms: fc.Arbitrary<Terms> = fc.record({
  commission: anyRates,
  commissionOverrides: fc.record({ bobcat: anyRates, castor: anyRates }, { requiredKeys: [] }),
  commissionMinCents: fc.constantFrom(0, 10, 500).map(cents),
  sellerNumberFeeCents: fc.constantFrom(0, 500).map(cents),
  lotFeeCents: fc.constantFrom(0, 25).map(cents),
  noSaleFlatCents: fc.constantFrom(0, 100).map(cents),
  noSalePctOfMinimum: anyRate,
  premiumPct: anyRate,
  taxPct: anyRate,
  priceStepCents: fc.constant(cents(25)),
  leftBids: fc.constantFrom('step', 'bid'),
  guestsMaySell: fc.boolean(),
  duesCents: fc.constant(cents(2500)),
});

export const anyLot: fc.Arbitrary<Omit<Lot, 'lotNo'>> = fc
  .record({
    sellerNo: fc.constantFrom(...SELLERS),
    goods: fc.constantFrom(...KINDS),
    by: fc.constantFrom('piece', 'lot', 'lb', 'oz'),
    count: fc.integer({ min: 1, max: 400 }),
    weightThousandths: fc.integer({ min: 1, max: 900_000 }),
    size: fc.constantFrom('', 'L'),
    grade: fc.constantFrom('', 'I'),
    section: fc.constantFrom('', 'east', 'west'),
    minimumCents: fc.option(anyCents(20_000)),
    donated: fc.boolean(),
  })
  .map((drawn) => ({ ...emptyFacts(inFolder(LOT_FIELDS)), ...drawn }));

const anyEnd = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record({ kind: fc.constant('sold'), price: anyCents(50_000), buyerNo: fc.constantFrom(...BUYERS) }),
  },
  { weight: 2, arbitrary: fc.record({ kind: fc.constantFrom('passed', 'withdrawn', 'waiting') }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('bought_back'), price: anyCents(50_000) }) },
  {
    weight: 1,
    arbitrary: fc.record({
      ...{ kind: fc.constant('unpaid'), price: anyCents(50_000), buyerNo: fc.constantFrom(...BUYERS) },
      fate: fc.constantFrom('seller', 'association'),
    }),
  },
);

type End = { kind: string; price?: Lot['minimumCents']; buyerNo?: number; fate?: NonNullable<Outcome['fate']> };

function outcomeOf(no: string, end: End): Outcome[] {
  if (end.kind === 'waiting') return [];
  const kind = end.kind as Outcome['kind'];
  const { price = null, buyerNo = null, fate } = end;
  return [{ lotNo: lotNo(no), kind, priceCents: price, buyerNo, ...(fate && { fate }) }];
}

const anyPartner = fc.record({
  memberUntil: fc.constantFrom(null, '2025-12-31', '2026-02-28', '2026-12-31'),
  parts: fc.integer({ min: 1, max: 9 }),
});
const anySellers: fc.Arbitrary<Seller[]> = fc
  .tuple(...SELLERS.map(() => fc.array(anyPartner, { minLength: 1, maxLength: 4 })))
  .map((all) =>
    all.map((partners, at) => ({
      sellerNo: SELLERS[at] ?? 1,
      partners: partners.map((partner, place) => ({ personId: `P${at}-${place}`, ...partner })),
    })),
  );

const anyCharge: fc.Arbitrary<Charge> = fc.record({
  sellerNo: fc.constantFrom(...SELLERS),
  kind: fc.constantFrom('dues', 'advance', 'adjustment'),
  amountCents: fc.integer({ min: -9000, max: 9000 }).map(cents),
  how: fc.constantFrom('deducted', 'cash'),
  note: fc.constant(''),
});

const anyPayment: fc.Arbitrary<Payment> = fc
  .record({
    direction: fc.constantFrom('in', 'out'),
    party: fc.oneof(
      fc.record({ buyerNo: fc.constantFrom(...BUYERS), sellerNo: fc.constant(null) }),
      fc.record({ buyerNo: fc.constant(null), sellerNo: fc.constantFrom(...SELLERS) }),
    ),
    method: fc.constantFrom('cash', 'check', 'card', 'other', 'set_off', 'written_off', 'check_fee'),
    amountCents: anyCents(90_000),
    reference: fc.constantFrom('', 'no. 1041', 'a; b | c\nd', 'Łódź'),
    paidAt: fc.constantFrom('2026-02-27T09:00:00Z', '2026-02-28T16:00:00Z', '2026-03-14T10:00:00Z'),
  })
  .map(({ party, ...rest }) => ({ ...rest, ...party, personId: null }) as Payment);

const anyTaking: fc.Arbitrary<Taking> = fc.record({
  kind: fc.constantFrom('raffle', 'door', 'donation', 'food', 'other'),
  method: fc.constantFrom('cash', 'check', 'card', 'other'),
  amountCents: anyCents(90_000),
  note: fc.constantFrom('', 'a; b | c'),
  takenAt: fc.constantFrom('2026-02-28T16:00:00Z', '2026-03-14T10:00:00Z'),
});

const anyCardFee: fc.Arbitrary<CardFee> = fc.record({
  method: fc.constantFrom('card', 'other'),
  day: fc.constantFrom('2026-02-28', '2026-03-14'),
  feeCents: fc.integer({ min: 1, max: 900 }).map(cents),
});

export const anySale: fc.Arbitrary<SaleFacts> = fc
  .record({
    terms: anyTerms,
    sellers: anySellers,
    exempt: fc.tuple(fc.boolean(), fc.boolean(), fc.boolean()),
    lots: fc.array(fc.tuple(anyLot, anyEnd, fc.constantFrom('', 'A')), { maxLength: 40 }),
    charges: fc.array(anyCharge, { maxLength: 6 }),
    payments: fc.array(anyPayment, { maxLength: 6 }),
    takings: fc.array(anyTaking, { maxLength: 4 }),
    cardFees: fc.array(anyCardFee, { maxLength: 2 }),
  })
  .map(({ terms, sellers, exempt, lots, charges, payments, ...beside }) => {
    const numbered = lots.map(([lot, end, letter], at) => ({ no: `${lots.length - at}${letter}`, lot, end }));
    const held: Sale = sale({ terms: terms as Terms });
    return {
      sale: held,
      timeZone: 'UTC',
      goods: KINDS.map((kind) => goods(kind)),
      sellers,
      buyers: BUYERS.map((no, at) => buyer(no, { taxExempt: exempt[at] ?? false })),
      lots: numbered.map(({ no, lot }) => ({ ...lot, lotNo: lotNo(no) }) as Lot),
      outcomes: numbered.flatMap(({ no, end }) => outcomeOf(no, end as End)),
      charges,
      payments,
      ...beside,
    };
  });
