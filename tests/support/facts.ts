/** Small sales for tests: everything has a plain value, and a test names only what it is about. */
import { BUYER_FIELDS } from '#lib/buyer/fields.ts';
import { emptyFacts, inFolder } from '#lib/field/fields.ts';
import { LOT_FIELDS } from '#lib/lot/fields.ts';
import { lotNo } from '#lib/lot/number.ts';
import { type Cents, cents, parseMoney, ZERO } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import type { PricedLot } from '#lib/price/table.ts';
import type {
  Buyer,
  Charge,
  Goods,
  Lot,
  Outcome,
  Payment,
  Sale,
  SaleFacts,
  Seller,
  Taking,
  Terms,
} from '#lib/sale/facts.ts';

/** Money from its text: `money('12.50')`. */
export function money(text: string): Cents {
  const read = parseMoney(text, { allowNegative: true });
  if (!read.ok) throw new Error(`${text}: ${read.message}`);
  return read.value;
}

export function terms(over: Partial<Terms> = {}): Terms {
  return {
    commission: { member: rate('6'), guest: rate('10') },
    commissionOverrides: {},
    commissionMinCents: ZERO,
    sellerNumberFeeCents: ZERO,
    lotFeeCents: ZERO,
    noSaleFlatCents: ZERO,
    noSalePctOfMinimum: rate('0'),
    premiumPct: rate('0'),
    taxPct: rate('0'),
    priceStepCents: money('0.25'),
    leftBids: 'step',
    guestsMaySell: true,
    duesCents: money('25.00'),
    ...over,
  };
}

export function sale(over: Partial<Sale> = {}): Sale {
  return {
    name: 'Late Winter Sale',
    heldOn: '2026-02-28',
    venue: 'Grange hall',
    season: '2025-26',
    seasonClosesOn: '2026-02-15',
    region: 'US-WY',
    currency: 'USD',
    bidding: 'floor',
    terms: terms(),
    ...over,
  };
}

export function goods(name: string, over: Partial<Goods> = {}): Goods {
  const plain = { scientificName: '', by: 'piece', exportTag: false, tagSpeciesCode: '', seasonLimit: null } as const;
  return { goods: name, name, ...plain, ...over };
}

export function seller(sellerNo: number, over: Partial<Seller> = {}): Seller {
  return { sellerNo, partners: [{ personId: `P${sellerNo}`, memberUntil: '2026-12-31', parts: 1 }], ...over };
}

export function buyer(buyerNo: number, over: Partial<Buyer> = {}): Buyer {
  return {
    buyerNo,
    personId: `B${buyerNo}`,
    ...emptyFacts(inFolder(BUYER_FIELDS)),
    cleared: true,
    ...over,
  };
}

export function lot(no: string, over: Partial<Lot> = {}): Lot {
  return {
    lotNo: lotNo(no),
    sellerNo: 1,
    goods: 'raccoon',
    by: 'piece',
    ...emptyFacts(inFolder(LOT_FIELDS)),
    count: 1,
    ...over,
  };
}

export function sold(no: string, price: string, buyerNo = 10): Outcome {
  return { lotNo: lotNo(no), kind: 'sold', priceCents: money(price), buyerNo };
}

export function unsold(no: string, kind: 'passed' | 'withdrawn' = 'passed'): Outcome {
  return { lotNo: lotNo(no), kind, priceCents: null, buyerNo: null };
}

/** Its seller's own bid was the last. */
export function boughtBack(no: string, price: string): Outcome {
  return { lotNo: lotNo(no), kind: 'bought_back', priceCents: money(price), buyerNo: null };
}

export function unpaid(no: string, price: string, fate: NonNullable<Outcome['fate']> = 'seller'): Outcome {
  return { ...sold(no, price), kind: 'unpaid', fate };
}

export function charge(over: Partial<Charge> = {}): Charge {
  return { sellerNo: 1, kind: 'dues', amountCents: money('25.00'), how: 'deducted', note: '', ...over };
}

export function payment(over: Partial<Payment> = {}): Payment {
  return {
    direction: 'in',
    buyerNo: null,
    sellerNo: null,
    personId: null,
    method: 'cash',
    amountCents: ZERO,
    reference: '',
    paidAt: '2026-02-28T16:00:00Z',
    ...over,
  };
}

export function taking(over: Partial<Taking> = {}): Taking {
  return { kind: 'raffle', method: 'cash', amountCents: ZERO, note: '', takenAt: '2026-02-28T16:00:00Z', ...over };
}

export function saleFacts(over: Partial<SaleFacts> = {}): SaleFacts {
  return {
    sale: sale(),
    timeZone: 'UTC',
    goods: [goods('raccoon')],
    sellers: [seller(1)],
    buyers: [buyer(10)],
    lots: [],
    outcomes: [],
    charges: [],
    payments: [],
    takings: [],
    cardFees: [],
    ...over,
  };
}

/** A sold lot of so many pieces as the price table counts it, at `value` whole cents each. */
export function priced({ value, times }: { value: number; times: number }): PricedLot {
  const plain = { season: '2025-26', goods: 'raccoon', section: '', measure: 'piece' } as const;
  const sums = { priceCents: cents(value), amountCents: cents(value * times) };
  return { ...plain, ...sums, times, quantityThousandths: times * 1000 };
}
