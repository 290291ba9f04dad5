/** What the check-in table sees: who arrived last, how much has come in, and one seller's page. */
import { and, asc, desc, eq, sql } from 'drizzle-orm';
import { countBy, type SaleRow, sellerByNumber } from '#db/book/find.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { howManyLots } from '#db/lot/papers.ts';
import { type IntakeLot, lotsOfSeller } from '#db/lot/queries.ts';
import { type DuesTaken, duesOfSeller } from '#db/person/dues-queries.ts';
import type { FoundPerson } from '#db/person/queries.ts';
import { type GoodsChoice, goodsChoices } from '#db/sale/goods.ts';
import { lot, particulars, partner, person, seller } from '#db/schema/index.ts';
import { pick, typedOf } from '#lib/field/fields.ts';
import { PERSON_FIELDS } from '#lib/person/fields.ts';
import { licenceInWords, membershipInWords } from '#lib/person/person.ts';
import type { Membership } from '#lib/sale/facts.ts';
import { membershipOf } from '#lib/settlement/settlement.ts';

const given = sql.placeholder;
const LAST_ARRIVED = 12;

export interface Arrival {
  readonly sellerNo: number;
  readonly names: string;
  readonly lots: number;
}

export interface IntakeView {
  /** The newest first. */
  readonly arrivals: readonly Arrival[];
  readonly sellers: number;
  readonly lots: number;
}

const newestSellers = query(({ db }) =>
  db
    .select({ id: seller.id, sellerNo: seller.sellerNo })
    .from(seller)
    .where(equals(seller.saleId, 'saleId'))
    .orderBy(desc(seller.id))
    .limit(given('most')),
);

const countSellers = countBy(seller, seller.saleId);
const countLotsOfSeller = countBy(lot, lot.sellerId);

export function intakeView(book: Book, sale: SaleRow, most: number = LAST_ARRIVED): IntakeView {
  const arrivals = newestSellers(book)
    .all({ saleId: sale.id, most })
    .map(({ id, sellerNo }) => ({
      sellerNo,
      names: partnersOf(book, sale, id)
        .map(({ name }) => name)
        .join(' and '),
      lots: countLotsOfSeller(book, id),
    }));
  return { arrivals, sellers: countSellers(book, sale.id), lots: howManyLots(book, sale.id) };
}

export interface SellerPartner extends Omit<FoundPerson, 'sellerNos'> {
  readonly parts: number;
}

export interface SellerView {
  readonly sellerId: number;
  readonly sellerNo: number;
  readonly partners: readonly SellerPartner[];
  readonly broughtBy: string;
  /** Whether the number sells at the members' rates: every partner's dues are paid. */
  readonly sellsAs: Membership;
  readonly lots: readonly IntakeLot[];
  /** Dues that were taken behind this number and not taken back. */
  readonly dues: readonly DuesTaken[];
  readonly goods: readonly GoodsChoice[];
}

/** One seller number with its lots; undefined where nobody has the number. */
export function sellerView(book: Book, sale: SaleRow, sellerNo: number): SellerView | undefined {
  const row = sellerByNumber(book, sale.id, sellerNo);
  if (!row) return undefined;
  const rows = partnersOf(book, sale, row.id);
  const partners = rows.map(({ memberUntil, ref, parts }) => ({ personId: ref, memberUntil, parts }));
  return {
    ...{ sellerId: row.id, sellerNo, broughtBy: row.broughtBy },
    partners: rows.map(({ memberUntil, ref, ...shown }) => shown),
    sellsAs: membershipOf({ partners }, sale.heldOn),
    lots: lotsOfSeller(book, row.id),
    dues: duesOfSeller(book, sale, row.id),
    goods: goodsChoices(book, sale),
  };
}

const findPartners = query(({ db }) =>
  db
    .select({ parts: partner.parts, as: particulars, now: person })
    .from(partner)
    .innerJoin(person, eq(person.id, partner.personId))
    .innerJoin(particulars, and(eq(particulars.personId, partner.personId), equals(particulars.saleId, 'saleId')))
    .where(equals(partner.sellerId, 'sellerId'))
    .orderBy(asc(partner.position)),
);

function partnersOf(book: Book, sale: SaleRow, sellerId: number) {
  return findPartners(book)
    .all({ saleId: sale.id, sellerId })
    .map(({ parts, as, now }) => ({
      parts,
      ...pick(as, ['personId', 'ref', 'name', 'phone', 'memberUntil']),
      place: [as.street, as.city, as.region].filter(Boolean).join(', '),
      membership: membershipInWords(as, sale.heldOn),
      licence: licenceInWords(as, sale.heldOn),
      // What is put right is what the association knows now; at this sale another membership may stand.
      typed: typedOf(PERSON_FIELDS, now),
    }));
}
