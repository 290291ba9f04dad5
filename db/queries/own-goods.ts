/** What one person's own goods brought over the years: every seller number they had a part in, newest sale first. */
import type { By, OutcomeKind } from '#lib/facts.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { type Cents, cents, sumCents, ZERO } from '#lib/money.ts';
import { lotNoOf } from '../lot-no.ts';
import type { Book } from '../open.ts';
import { personById } from './find.ts';

export interface OwnLot {
  readonly lotNo: string;
  readonly goods: string;
  readonly name: string;
  readonly by: By;
  readonly count: number | null;
  readonly weightThousandths: number | null;
  /** Size, grade and section, as far as they were said. */
  readonly words: string;
  /** Null where the lot was not called yet. */
  readonly outcome: OutcomeKind | null;
  readonly priceCents: Cents | null;
  readonly amountCents: Cents;
}

export interface OwnNumber {
  readonly saleId: number;
  readonly sale: string;
  readonly heldOn: string;
  readonly season: string;
  readonly currency: string;
  readonly sellerNo: number;
  /** True where others share the number. */
  readonly shared: boolean;
  /** True where a settlement sheet was issued. */
  readonly hasSheet: boolean;
  readonly lots: readonly OwnLot[];
  /** All that the sold lots brought, before commission and fees. */
  readonly grossCents: Cents;
}

export interface OwnGoods {
  readonly name: string;
  readonly numbers: readonly OwnNumber[];
}

/** Null where there is no such person. */
export function ownGoods(book: Book, personId: number): OwnGoods | null {
  const person = personById(book, personId);
  if (!person) return null;
  const find = book.prepared('own seller numbers', () => book.sqlite.prepare(NUMBERS));
  const numbers = (find.all({ personId }) as NumberRow[]).map((row) => numberOf(book, row));
  return { name: person.name, numbers };
}

/** Whether a person had a part in a seller number: what every sheet is asked before it is shown. */
export function isOwnNumber(book: Book, personId: number, asked: { saleId: number; sellerNo: number }): boolean {
  const find = book.prepared('own seller number', () => book.sqlite.prepare(IS_OWN).pluck());
  return find.get({ personId, ...asked }) === 1;
}

const IS_OWN = `
  SELECT 1 FROM seller JOIN partner ON partner.seller_id = seller.id
  WHERE seller.sale_id = :saleId AND seller.seller_no = :sellerNo AND partner.person_id = :personId`;

interface NumberRow {
  readonly sellerId: number;
  readonly saleId: number;
  readonly sale: string;
  readonly heldOn: string;
  readonly season: string;
  readonly currency: string;
  readonly sellerNo: number;
  readonly partners: number;
  readonly sheets: number;
}

const NUMBERS = `
  SELECT seller.id AS sellerId, sale.id AS saleId, sale.name AS sale, sale.held_on AS heldOn, sale.season,
    sale.currency, seller.seller_no AS sellerNo,
    (SELECT count(*) FROM partner other WHERE other.seller_id = seller.id) AS partners,
    (SELECT count(*) FROM settlement WHERE settlement.seller_id = seller.id) AS sheets
  FROM partner JOIN seller ON seller.id = partner.seller_id JOIN sale ON sale.id = seller.sale_id
  WHERE partner.person_id = :personId GROUP BY seller.id ORDER BY sale.held_on DESC, sale.id DESC, seller.seller_no`;

const LOTS = `
  SELECT lot.lot_number AS lotNumber, lot.lot_letter AS lotLetter, goods.goods, goods.name, lot.by, lot.count,
    lot.weight_thousandths AS weightThousandths, lot.size, lot.grade, lot.section, outcome.kind,
    outcome.price_cents AS priceCents
  FROM lot JOIN goods ON goods.id = lot.goods_id
    LEFT JOIN outcome ON outcome.lot_id = lot.id
      AND NOT EXISTS (SELECT 1 FROM outcome later WHERE later.replaces_id = outcome.id)
  WHERE lot.seller_id = ? ORDER BY lot.lot_number, lot.lot_letter`;

interface LotRow {
  readonly lotNumber: number;
  readonly lotLetter: string;
  readonly goods: string;
  readonly name: string;
  readonly by: By;
  readonly count: number | null;
  readonly weightThousandths: number | null;
  readonly size: string;
  readonly grade: string;
  readonly section: string;
  readonly kind: OutcomeKind | 'reopened' | null;
  readonly priceCents: number | null;
}

function numberOf(book: Book, { sellerId, partners, sheets, ...row }: NumberRow): OwnNumber {
  const find = book.prepared('own lots', () => book.sqlite.prepare(LOTS));
  const lots = (find.all(sellerId) as LotRow[]).map(lotOf);
  const grossCents = sumCents(lots.map(({ amountCents }) => amountCents));
  return { ...row, shared: partners > 1, hasSheet: sheets > 0, lots, grossCents };
}

function lotOf({ lotNumber, lotLetter, kind, priceCents, size, grade, section, ...row }: LotRow): OwnLot {
  const price = priceCents === null ? null : cents(priceCents);
  return {
    ...row,
    lotNo: lotNoOf({ lotNumber, lotLetter }),
    words: [size, grade, section].filter((word) => word !== '').join(', '),
    outcome: kind === 'reopened' ? null : kind,
    priceCents: price,
    amountCents: price === null ? ZERO : lotAmount(price, row),
  };
}
