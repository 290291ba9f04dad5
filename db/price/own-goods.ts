/** What one person's own goods brought over the years: every seller number they had a part in, newest sale first. */
import { and, asc, desc, eq, sql } from 'drizzle-orm';
import { lotNoOf, personById, type SaleRow } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { lotNow, partner, sale, seller, settlement } from '#db/schema/index.ts';
import { pick } from '#lib/field/fields.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { type Cents, sumCents, ZERO } from '#lib/money/money.ts';
import type { Measured, OutcomeKind } from '#lib/sale/facts.ts';

export interface OwnLot extends Measured {
  readonly lotNo: string;
  readonly goods: string;
  readonly name: string;
  /** Size, grade and section, as far as they were said. */
  readonly words: string;
  /** Null where the lot was not called yet. */
  readonly outcome: OutcomeKind | null;
  readonly priceCents: Cents | null;
  readonly amountCents: Cents;
}

export interface OwnNumber extends Pick<SaleRow, 'heldOn' | 'season' | 'currency'> {
  readonly saleId: number;
  readonly sale: string;
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

const findNumbers = query(({ db }) =>
  db
    .select({
      ...{ sellerId: seller.id, saleId: sale.id, sale: sale.name },
      ...pick(sale, ['heldOn', 'season', 'currency']),
      sellerNo: seller.sellerNo,
      partners: sql<number>`(SELECT count(*) FROM partner other WHERE other.seller_id = ${seller.id})`,
      sheets: sql<number>`(SELECT count(*) FROM ${settlement} WHERE ${settlement.sellerId} = ${seller.id})`,
    })
    .from(partner)
    .innerJoin(seller, eq(seller.id, partner.sellerId))
    .innerJoin(sale, eq(sale.id, seller.saleId))
    .where(equals(partner.personId, 'personId'))
    .groupBy(seller.id)
    .orderBy(desc(sale.heldOn), desc(sale.id), asc(seller.sellerNo)),
);

/** Null where there is no such person. */
export function ownGoods(book: Book, personId: number): OwnGoods | null {
  const person = personById(book, personId);
  if (!person) return null;
  const numbers = findNumbers(book).all({ personId });
  return { name: person.name, numbers: numbers.map((row) => numberOf(book, row)) };
}

const findOwn = query(({ db }) =>
  db
    .select({ sellerId: seller.id })
    .from(seller)
    .innerJoin(partner, eq(partner.sellerId, seller.id))
    .where(
      and(
        ...[equals(seller.saleId, 'saleId'), equals(seller.sellerNo, 'sellerNo')],
        equals(partner.personId, 'personId'),
      ),
    ),
);

/** Whether a person had a part in a seller number: what every sheet is asked before it is shown. */
export function isOwnNumber(book: Book, personId: number, asked: { saleId: number; sellerNo: number }): boolean {
  return findOwn(book).get({ personId, ...asked }) !== undefined;
}

const findLots = query(({ db }) =>
  db
    .select({
      ...pick(lotNow, ['lotNumber', 'lotLetter', 'goods', 'by', 'count', 'weightThousandths', 'size', 'grade']),
      ...pick(lotNow, ['section', 'outcome', 'priceCents']),
      name: lotNow.goodsName,
    })
    .from(lotNow)
    .where(equals(lotNow.sellerId, 'sellerId'))
    .orderBy(asc(lotNow.lotNumber), asc(lotNow.lotLetter)),
);

type NumberRow = ReturnType<ReturnType<typeof findNumbers>['all']>[number];
type LotRow = ReturnType<ReturnType<typeof findLots>['all']>[number];

function numberOf(book: Book, { sellerId, partners, sheets, ...row }: NumberRow): OwnNumber {
  const lots = findLots(book).all({ sellerId }).map(lotOf);
  const grossCents = sumCents(lots.map(({ amountCents }) => amountCents));
  return { ...row, shared: partners > 1, hasSheet: sheets > 0, lots, grossCents };
}

function lotOf({ lotNumber, lotLetter, priceCents, size, grade, section, ...row }: LotRow): OwnLot {
  return {
    ...row,
    lotNo: lotNoOf({ lotNumber, lotLetter }),
    words: [size, grade, section].filter((word) => word !== '').join(', '),
    priceCents,
    amountCents: row.outcome !== 'sold' || priceCents === null ? ZERO : lotAmount(priceCents, row),
  };
}
