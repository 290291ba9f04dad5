/** How each seller number stands when it is to be paid: its newest sheet, what has changed since, and its partners' accounts. */
import { and, asc, eq } from 'drizzle-orm';
import { buyerByNumber, particularsByRef, type SaleRow } from '#db/book/find.ts';
import { logHead } from '#db/book/log.ts';
import { type Book, equals, query } from '#db/book/open.ts';
import { owingOf } from '#db/buyer/accounts.ts';
import { type CheckRow, checksOfSale, type PaidByHand, paidByHand } from '#db/payment/queries.ts';
import { saleFacts, sellerFacts } from '#db/sale/facts.ts';
import { dues, liveCharge, seller } from '#db/schema/index.ts';
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import { pick } from '#lib/field/fields.ts';
import { formatMoney, negate, showMoney } from '#lib/money/money.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { partnerWords } from '#lib/payment/amount-words.ts';
import type { CheckSeller, OwedAsBuyer } from '#lib/payment/checks.ts';
import { type Due, dueOf } from '#lib/payment/decide-payment.ts';
import { groupBy, once } from '#lib/result/text.ts';
import type { Payment, SaleFacts } from '#lib/sale/facts.ts';
import { partnerAccounts, partnerSplit, sharesOf } from '#lib/seller/account.ts';
import { asPrinted, type Outdated, outdatedSheet, sheetChanged } from '#lib/settlement/correction.ts';
import type { SettlementSheet, SheetCharge } from '#lib/settlement/model.ts';
import type { SellerFile } from '#lib/settlement/parties.ts';
import { type SellerSettlement, settleSale } from '#lib/settlement/settlement.ts';
import { chargeOf, settlementSheet, sheetFigures } from '#lib/settlement/sheet.ts';
import { type IssuedSheet, issuedSheets, newestSheets, sellerFile, sellerFilesOf, sheetsOfSeller } from './sheets.ts';

export interface PayoutSeller extends CheckSeller {
  readonly file: SellerFile;
  readonly issued: IssuedSheet | null;
  /** The sheet as it would be issued now, without a number; made when it is asked for. */
  readonly fresh: () => SettlementSheet;
  /** What the sheet would come to, which costs no sheet. */
  readonly settled: SellerSettlement;
  readonly payments: readonly Payment[];
  /** Where the newest sheet is no longer right: what it says, and what is right now. */
  readonly outdated: Outdated | null;
}

/** Every seller number of a sale, by number. `facts` may be given where they were read already. */
export function payoutSellers(
  book: Book,
  sale: Pick<SaleRow, 'id' | 'sellersWait'>,
  facts: SaleFacts = saleFacts(book, sale.id),
): PayoutSeller[] {
  const waits = sale.sellersWait ? buyersOwing(facts) : new Map<number, number[]>();
  const newest = newestSheets(issuedSheets(book, sale.id));
  const owing = owingPeople(facts, buyerAccounts(facts));
  return sellersOf(book, facts, { files: sellerFilesOf(book, sale.id, { facts }), newest, waits, owing });
}

/** One of them, reading no more than is needed for it; undefined where the sale has no such number. */
export function payoutSeller(book: Book, sale: SaleRow, sellerNo: number): PayoutSeller | undefined {
  const file = sellerFile(book, sale.id, sellerNo);
  if (!file) return undefined;
  const waits = new Map(sale.sellersWait ? [[sellerNo, buyersOwingTo(book, sale, sellerNo)]] : []);
  const newest = newestSheets(sheetsOfSeller(book, sale.id, sellerNo));
  const facts = sellerFacts(book, sale.id, sellerNo);
  const owing = owingPeople({ buyers: file.buyers }, owingOfPartners(book, sale, file));
  return sellersOf(book, facts, { files: [file], newest, waits, owing })[0];
}

interface Read {
  readonly files: readonly SellerFile[];
  readonly newest: ReadonlyMap<number, IssuedSheet>;
  readonly waits: ReadonlyMap<number, readonly number[]>;
  /** By the reference of the person. */
  readonly owing: ReadonlyMap<string, readonly OwedAsBuyer[]>;
}

function sellersOf(book: Book, facts: SaleFacts, { files, newest, waits, owing }: Read): PayoutSeller[] {
  const settlements = new Map(settleSale(facts).map((one) => [one.sellerNo, one]));
  const paid = groupBy(facts.payments, (payment) => payment.sellerNo);
  const stamp = { number: null, issuedOn: facts.sale.heldOn, head: logHead(book) };
  return files.map((file) => {
    const { sellerNo } = file.seller;
    const issued = newest.get(sellerNo) ?? null;
    const settled = settlements.get(sellerNo);
    if (!settled) throw new RangeError(`seller number ${sellerNo} was not settled`);
    // Most sellers of a large sale have no sheet yet, and nobody looks at all of theirs.
    const fresh = once(() => settlementSheet(file, stamp));
    const payments = paid.get(sellerNo) ?? [];
    const changed = issued !== null && sheetChanged(issued.sheet, sheetFigures(file));
    // A sheet that is no longer right says nothing of what is owed: the facts do.
    const accounts = partnerAccounts(issued && !changed ? sharesOf(issued.sheet) : settled.shares, payments);
    return {
      ...{ sellerNo, file, issued, fresh, settled, payments },
      sheetNumber: issued?.number ?? null,
      changed,
      waitsFor: waits.get(sellerNo) ?? [],
      outdated: changed ? outdatedSheet(issued.sheet, settled, { accounts, currency: facts.sale.currency }) : null,
      accounts,
      owesAsBuyer: file.seller.partners.flatMap(({ personId }) => owing.get(personId) ?? []),
    };
  });
}

type Owing = Pick<OwedAsBuyer, 'buyerNo' | 'owingCents'>;

/** The buyer numbers of each person with something to pay. */
function owingPeople({ buyers }: Pick<SaleFacts, 'buyers'>, accounts: readonly Owing[]): Map<string, OwedAsBuyer[]> {
  const personOf = new Map(buyers.map(({ buyerNo, personId }) => [buyerNo, personId]));
  const owing = accounts.flatMap(({ buyerNo, owingCents }): OwedAsBuyer[] => {
    const personId = personOf.get(buyerNo);
    return personId === undefined || owingCents <= 0 ? [] : [{ buyerNo, personId, owingCents }];
  });
  return groupBy(owing, ({ personId }) => personId);
}

/** What the partners of one seller number owe, reading the accounts of no other buyers. */
function owingOfPartners(book: Book, sale: SaleRow, { buyers, seller: { partners } }: SellerFile): Owing[] {
  const own = new Set(partners.map(({ personId }) => personId));
  return buyers
    .filter(({ personId }) => own.has(personId))
    .flatMap(({ buyerNo }) => {
      const row = buyerByNumber(book, sale.id, buyerNo);
      return row ? [{ buyerNo, owingCents: owingOf(book, sale, row) }] : [];
    });
}

/** The buyers who still owe for lots of each seller number. */
function buyersOwing(facts: SaleFacts): Map<number, number[]> {
  const owing = buyerAccounts(facts).filter(({ owingCents }) => owingCents > 0);
  const waits = new Map<number, number[]>();
  for (const { buyerNo, invoice } of owing) {
    for (const sellerNo of new Set(invoice.rows.map((line) => line.sellerNo))) {
      waits.set(sellerNo, [...(waits.get(sellerNo) ?? []), buyerNo]);
    }
  }
  return waits;
}

/** The same of one seller number, reading the accounts of no more buyers than bought from it. */
function buyersOwingTo(book: Book, sale: SaleRow, sellerNo: number): number[] {
  const { lots, outcomes } = sellerFacts(book, sale.id, sellerNo);
  const own = new Set(lots.map(({ lotNo }) => lotNo));
  const bought = outcomes.filter(({ kind, lotNo }) => kind === 'sold' && own.has(lotNo));
  const buyerNos = [...new Set(bought.flatMap(({ buyerNo }) => buyerNo ?? []))].sort((a, b) => a - b);
  return buyerNos.filter((buyerNo) => {
    const row = buyerByNumber(book, sale.id, buyerNo);
    return row !== undefined && owingOf(book, sale, row) > 0;
  });
}

/** The person behind a reference of a sale, which a folder may have named in its own way. */
export function personIdOf(book: Book, saleId: number, ref: string): number | undefined {
  return particularsByRef(book, saleId, ref)?.personId;
}

export interface PartnerView {
  readonly personId: number;
  readonly name: string;
  /** Who is paid in their place, or empty. */
  readonly payee: string;
  /** The share and what was paid of it. */
  readonly words: string;
  readonly due: Due | null;
  /** The buyer numbers under which the partner still owes, and how much of it can be set off: the amount as it would be typed. */
  readonly owesAs: readonly { readonly buyerNo: number; readonly owes: string; readonly most: string }[];
}

/** A charge that stands, or below nothing a credit. Dues that bought a membership are taken back with it only. */
export interface ChargeView extends SheetCharge {
  readonly chargeId: number;
  readonly boughtMembership: boolean;
}

const standingCharges = query(({ db }) =>
  db
    .select({
      ...pick(liveCharge, ['id', 'kind', 'amountCents', 'how', 'note']),
      sellerNo: seller.sellerNo,
      bought: dues.id,
    })
    .from(seller)
    .innerJoin(liveCharge, eq(liveCharge.sellerId, seller.id))
    .leftJoin(dues, eq(dues.chargeId, liveCharge.id))
    .where(and(equals(seller.saleId, 'saleId'), equals(seller.sellerNo, 'sellerNo')))
    .orderBy(asc(liveCharge.id)),
);

export interface PayoutSellerView {
  readonly sellerNo: number;
  readonly issued: boolean;
  readonly changed: boolean;
  /** Where it has changed: what the newest sheet says, and what is right now. */
  readonly outdated: Outdated | null;
  readonly sheet: SettlementSheet;
  /** What a correction says has changed; null where the newest sheet is a first one. */
  readonly correction: ListPaper | null;
  /** The numbers of the older sheets, the oldest first. */
  readonly older: readonly number[];
  readonly waitsFor: readonly number[];
  readonly charges: readonly ChargeView[];
  readonly partners: readonly PartnerView[];
  readonly checks: readonly CheckRow[];
  /** What was paid or taken in other ways than by such a check, in its order, the voided ones too. */
  readonly byHand: readonly PaidByHand[];
}

/** Undefined where the sale has no such number. `drawnOn` is an ISO 8601 date. */
export function payoutSellerView(
  book: Book,
  sale: SaleRow,
  { sellerNo, drawnOn }: { readonly sellerNo: number; readonly drawnOn: string },
): PayoutSellerView | undefined {
  const found = payoutSeller(book, sale, sellerNo);
  if (!found) return undefined;
  const { issued, file, changed, outdated, waitsFor, accounts, owesAsBuyer } = found;
  const preview = () => settlementSheet(file, { number: null, issuedOn: drawnOn, head: logHead(book) });
  const { sheet, report } = issued ? asPrinted(issued) : { sheet: preview(), report: null };
  const payees = new Map(file.people.map(({ personId, payee }) => [personId, payee]));
  const names = new Map(sheet.shares.map(({ personId, name }) => [personId, name]));
  return {
    ...{ sellerNo, issued: issued !== null, changed, outdated, sheet, waitsFor },
    correction: report,
    older: sheetsOfSeller(book, sale.id, sellerNo)
      .slice(0, -1)
      .map(({ number }) => number),
    charges: standingCharges(book)
      .all({ saleId: sale.id, sellerNo })
      .map(({ id, bought, ...row }) => ({ chargeId: id, ...chargeOf(row), boughtMembership: bought !== null })),
    partners: accounts.map(({ personId, shareCents, paidCents, owingCents }) => ({
      personId: personIdOf(book, sale.id, personId) ?? 0,
      name: names.get(personId) ?? personId,
      payee: payees.get(personId) ?? '',
      words: partnerWords(shareCents, partnerSplit({ personId, paidCents }, found.payments, accounts.length === 1)),
      due: dueOf(negate(owingCents)),
      owesAs: owesAsBuyer
        .filter((one) => one.personId === personId && owingCents > 0)
        .map(({ buyerNo, owingCents: owes }) => ({
          ...{ buyerNo, owes: showMoney(owes), most: formatMoney(owes < owingCents ? owes : owingCents) },
        })),
    })),
    checks: checksOfSale(book, sale.id).filter((check) => check.sellerNo === sellerNo),
    byHand: paidByHand(book, sale, sellerNo),
  };
}
