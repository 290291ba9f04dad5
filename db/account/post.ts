/**
 * Writes the journal. An entry comes beside the row that it is of, by the same command; where that row is replaced or
 * taken back, the entry is reversed by a further one, on the day on which that was done.
 */
import { and, desc, eq, isNull, notExists, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import { bankedIn, markOf } from '#db/bank/queries.ts';
import type { CommandContext } from '#db/book/command.ts';
import { buyerById, buyerByNumber, rowsBy, sellerById, sellerByNumber } from '#db/book/find.ts';
import { equals, query } from '#db/book/open.ts';
import { addRow, type NewRow } from '#db/book/rows.ts';
import { cashAccountNow, drawerStands } from '#db/drawer/queries.ts';
import { dayIn } from '#db/sale/queries.ts';
import { bankMark, charge, journalEntry, payment, posting, taking } from '#db/schema/index.ts';
import {
  ACCOUNTS,
  ARRIVING_ACCOUNTS,
  arrivalTransfers,
  type CashAccount,
  chargeTransfer,
  depositTransfers,
  type Posting,
  paidInWords,
  paymentTransfer,
  postingsOf,
  proceedsTransfers,
  purchaseTransfers,
  type Transfer,
  takingTransfer,
} from '#lib/account/account.ts';
import { paidBy } from '#lib/buyer/buyer.ts';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { type Cents, negate, subtractCents, sumCents, ZERO } from '#lib/money/money.ts';
import { groupBy } from '#lib/result/text.ts';
import type { Charge, Method, SaleFacts } from '#lib/sale/facts.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { CHARGES } from '#lib/settlement/sheet.ts';
import { lower } from '#lib/settlement/spelling.ts';
import { accountBalance } from './queries.ts';

type Entry = Omit<NewRow<typeof journalEntry>, 'reversesId'>;
type Source = Pick<Entry, 'kind' | 'sourceId'>;

function addEntry(
  context: CommandContext,
  entry: Entry & { readonly reversesId?: number },
  postings: readonly Posting[],
) {
  if (postings.length === 0) return;
  const entryId = addRow(context, journalEntry, entry);
  for (const one of postings) addRow(context, posting, { entryId, ...one });
}

const reversing = alias(journalEntry, 'reversing');

/** The entry of a row that is in force: neither reversed nor the reversal of another. */
const standingEntry = query(({ db }) =>
  db
    .select()
    .from(journalEntry)
    .where(
      and(
        equals(journalEntry.kind, 'kind'),
        equals(journalEntry.sourceId, 'sourceId'),
        isNull(journalEntry.reversesId),
        notExists(db.select({ found: sql`1` }).from(reversing).where(eq(reversing.reversesId, journalEntry.id))),
      ),
    )
    .orderBy(desc(journalEntry.id))
    .limit(1),
);

const postingsOfEntry = rowsBy(posting, posting.id, 'entryId');

interface Reversal {
  /** Where an account of the entry lies by now. */
  readonly now?: (account: string) => string;
  readonly word?: string;
}

/** Reverses the entry of a row, if it has one. */
function reverse(
  context: CommandContext,
  source: Source,
  { now = (account) => account, word = 'Taken back' }: Reversal = {},
): void {
  const { book, at } = context;
  const before = standingEntry(book).get({ ...source });
  if (!before) return;
  const { id: reversesId, line: _line, ...entry } = before;
  const postings = postingsOfEntry(book, reversesId).map(({ account, amountCents }) => ({
    account: now(account),
    amountCents: negate(amountCents),
  }));
  const reversal = { ...entry, day: dayIn(book, at), memo: `${word}: ${entry.memo}`, reversesId };
  addEntry(context, reversal, postings);
}

/** Cash goes where cash goes now: the drawer may have been closed meanwhile. */
function withCashNow({ book }: CommandContext, saleId: number): Reversal {
  const cash = cashAccountNow(book, saleId);
  return { now: (account) => (account === ACCOUNTS.drawer || account === ACCOUNTS.outside ? cash : account) };
}

/** Where cash lies: the drawer is asked for it only where it is cash that moves. */
function cashOf({ book }: CommandContext, saleId: number, method: Method): CashAccount {
  return method === 'cash' ? cashAccountNow(book, saleId) : ACCOUNTS.outside;
}

/** Has the entry of a row say what is now: the one before is reversed, unless it says the same. */
function replace(context: CommandContext, entry: Entry, transfers: readonly Transfer[]): void {
  const { kind, sourceId } = entry;
  const postings = postingsOf(transfers);
  const before = standingEntry(context.book).get({ kind, sourceId });
  const said = before ? postingsOfEntry(context.book, before.id) : [];
  if (isSame(said, postings)) return;
  reverse(context, { kind, sourceId });
  addEntry(context, entry, postings);
}

function isSame(one: readonly Posting[], other: readonly Posting[]): boolean {
  const told = (all: readonly Posting[]) =>
    JSON.stringify(all.map(({ account, amountCents }) => [account, amountCents]));
  return told(one) === told(other);
}

/** The paper that an entry is of. */
interface Paper {
  readonly saleId: number;
  readonly day: string;
  readonly memo: string;
}

type Bill = Parameters<typeof purchaseTransfers>[0];
type Settled = Parameters<typeof proceedsTransfers>[0];

/** Posts what a buyer bought; what was posted of them before is reversed. */
export function postPurchases(context: CommandContext, paper: Paper & { readonly buyerId: number }, bill: Bill): void {
  const { buyerId: sourceId, ...entry } = paper;
  replace(context, { ...entry, kind: 'purchases', sourceId }, purchaseTransfers(bill));
}

/** Posts what a seller number is owed for its lots; what was posted of it before is reversed. */
export function postProceeds(
  context: CommandContext,
  { sellerId: sourceId, ...entry }: Paper & { readonly sellerId: number },
  settled: Settled,
  charges: readonly Charge[],
): void {
  replace(context, { ...entry, kind: 'proceeds', sourceId }, proceedsTransfers(settled, charges));
}

/**
 * Posts what no paper has said yet, so that the journal is whole: at a closing, and for a sale that was brought in.
 * `facts` are those of the whole sale.
 */
export function postRest(
  context: CommandContext,
  { saleId, day, facts }: { readonly saleId: number; readonly day: string; readonly facts: SaleFacts },
): void {
  const { book } = context;
  const bills = new Map(invoiceSale(facts).map((bill) => [bill.buyerNo, bill]));
  for (const { buyerNo } of facts.buyers) {
    const row = buyerByNumber(book, saleId, buyerNo);
    const bill = bills.get(buyerNo) ?? { buyerNo, amountCents: ZERO, premiumCents: ZERO, taxCents: ZERO };
    if (row) postPurchases(context, { saleId, day, memo: `Lots of buyer ${buyerNo}`, buyerId: row.id }, bill);
  }
  const charges = groupBy(facts.charges, ({ sellerNo }) => sellerNo);
  for (const settled of settleSale(facts)) {
    const { sellerNo } = settled;
    const row = sellerByNumber(book, saleId, sellerNo);
    const paper = { saleId, day, memo: `Lots of seller ${sellerNo}`, sellerId: row?.id ?? 0 };
    if (row) postProceeds(context, paper, settled, charges.get(sellerNo) ?? []);
  }
}

type PaymentFields = Omit<NewRow<typeof payment>, 'voidsId' | 'reason'>;

/** Adds a payment and posts it on its local day; gives the row's id. */
export function savePayment(context: CommandContext, fields: PaymentFields): number {
  const { book } = context;
  const paymentId = addRow(context, payment, fields);
  const { saleId, direction, method, amountCents, reference = '', buyerId, sellerId, personId } = fields;
  const by = {
    buyerNo: buyerId == null ? null : (buyerById(book, buyerId)?.buyerNo ?? null),
    sellerNo: sellerId == null ? null : (sellerById(book, sellerId)?.sellerNo ?? null),
  };
  const who =
    by.buyerNo !== null ? `buyer ${by.buyerNo}` : by.sellerNo !== null ? `seller ${by.sellerNo}` : `person ${personId}`;
  const memo = [paidInWords({ direction, method }), `${who},`, lower(paidBy({ method, reference }))].join(' ').trim();
  const entry = { saleId, day: dayIn(book, fields.paidAt), memo, kind: 'payment', sourceId: paymentId } as const;
  const transfer = paymentTransfer({ direction, method, amountCents, ...by }, cashOf(context, saleId, method));
  addEntry(context, entry, postingsOf([transfer]));
  return paymentId;
}

/** Adds the row that voids a payment, with its party and amount; gives the row's id. */
export function saveVoiding(context: CommandContext, voided: typeof payment.$inferSelect, reason: string): number {
  const { id: voidsId, line: _before, ...fields } = voided;
  const voidingId = addRow(context, payment, { ...fields, paidAt: context.at, voidsId, reason });
  const source = { kind: 'payment', sourceId: voidsId } as const;
  // The bank takes back what it gave for a check that it did not get paid.
  if (bankedIn(context.book, voidsId)) {
    const now = (account: string) => (account === ACCOUNTS.checks ? ACCOUNTS.bank : account);
    reverse(context, source, { now, word: 'Came back' });
  } else reverse(context, source, withCashNow(context, voided.saleId));
  return voidingId;
}

type ChargeFields = Omit<NewRow<typeof charge>, 'voidsId'>;

/** Adds a charge of a seller number, and posts what it moves by itself today. Gives the row's id. */
export function saveCharge(context: CommandContext, fields: ChargeFields): number {
  const { book, at } = context;
  const chargeId = addRow(context, charge, fields);
  const owner = sellerById(book, fields.sellerId);
  const transfer = owner && chargeTransfer(fields, cashAccountNow(book, owner.saleId));
  if (!owner || !transfer) return chargeId;
  const memo = `${CHARGES[fields.kind]} of seller ${owner.sellerNo}, ${fields.how === 'cash' ? 'in cash' : 'handed out'}`;
  const entry = { saleId: owner.saleId, day: dayIn(book, at), memo, kind: 'charge', sourceId: chargeId } as const;
  addEntry(context, entry, postingsOf([transfer]));
  return chargeId;
}

/** Adds the row that takes a charge back, of the same money; gives the row's id. */
export function saveChargeVoiding(context: CommandContext, voided: typeof charge.$inferSelect, reason: string): number {
  const { id: voidsId, line: _before, ...fields } = voided;
  const voidingId = addRow(context, charge, { ...fields, note: reason, voidsId });
  const saleId = sellerById(context.book, voided.sellerId)?.saleId ?? 0;
  const over = voided.how === 'cash' ? withCashNow(context, saleId) : undefined;
  reverse(context, { kind: 'charge', sourceId: voidsId }, over);
  return voidingId;
}

type TakingFields = Omit<NewRow<typeof taking>, 'voidsId' | 'reason'>;

/** Adds money that is nobody's purchase and posts it; gives the row's id. */
export function saveTaking(context: CommandContext, fields: TakingFields): number {
  const { book } = context;
  const { saleId, kind: what, method, amountCents, note = '', at } = fields;
  const takingId = addRow(context, taking, fields);
  const memo = `Taken in, ${what}, ${method} ${note}`.trim();
  const entry = { saleId, day: dayIn(book, at), memo, kind: 'taking', sourceId: takingId } as const;
  const transfer = takingTransfer({ kind: what, method, amountCents }, cashOf(context, saleId, method));
  addEntry(context, entry, postingsOf([transfer]));
  return takingId;
}

/** Adds the row that takes a taking back; gives the row's id. */
export function saveTakingVoiding(context: CommandContext, voided: typeof taking.$inferSelect, reason: string): number {
  const { id: voidsId, line: _before, ...fields } = voided;
  const voidingId = addRow(context, taking, { ...fields, at: context.at, voidsId, reason });
  reverse(context, { kind: 'taking', sourceId: voidsId }, withCashNow(context, voided.saleId));
  return voidingId;
}

interface DrawerAct {
  readonly entryId: number;
  readonly voidsId: number | null;
}

/**
 * Posts what an act at the drawer did: at a closing what was over or short, and then the move between the drawer and the
 * cash outside of it that makes its account what the drawer holds now.
 */
export function postDrawer(context: CommandContext, saleId: number, { entryId, voidsId }: DrawerAct): void {
  const { book, at } = context;
  if (voidsId !== null) reverse(context, { kind: 'drawer', sourceId: voidsId });
  const { holdsCents, offs } = drawerStands(book, saleId);
  const off = voidsId === null ? offs : [];
  const inDrawer = off.filter(({ account }) => account === ACCOUNTS.drawer).map(({ amountCents }) => amountCents);
  const posted = sumCents([accountBalance(book, saleId, ACCOUNTS.drawer), ...inDrawer]);
  const transfers: Transfer[] = [
    ...off.map(({ account: debit, amountCents: amount }) => ({ debit, credit: ACCOUNTS.overShort, amount })),
    { debit: ACCOUNTS.drawer, credit: ACCOUNTS.outside, amount: subtractCents(holdsCents, posted) },
  ];
  const entry = { saleId, day: dayIn(book, at), memo: 'The drawer', kind: 'drawer', sourceId: entryId } as const;
  addEntry(context, entry, postingsOf(transfers));
}

interface Banked {
  readonly saleId: number;
  readonly depositId: number;
  readonly day: string;
  readonly memo: string;
  readonly checksCents: Cents;
  readonly cashCents: Cents;
}

/** Posts what was brought to the bank, on the day on which it was. */
export function postDeposit(context: CommandContext, { depositId, checksCents, cashCents, ...entry }: Banked): void {
  const transfers = depositTransfers(checksCents, cashCents);
  addEntry(context, { ...entry, kind: 'deposit', sourceId: depositId }, postingsOf(transfers));
}

interface Arrived {
  readonly saleId: number;
  readonly arrivalId: number;
  readonly day: string;
  readonly memo: string;
  readonly method: keyof typeof ARRIVING_ACCOUNTS;
  readonly arrivedCents: Cents;
  readonly feeCents: Cents;
}

/** Posts what arrived on the account, and marks it as standing on the statement of that day, where it was read. */
export function postArrival(context: CommandContext, arrived: Arrived): void {
  const { arrivalId: sourceId, method, arrivedCents, feeCents, ...entry } = arrived;
  const transfers = arrivalTransfers(ARRIVING_ACCOUNTS[method], arrivedCents, feeCents);
  addEntry(context, { ...entry, kind: 'arrival', sourceId }, postingsOf(transfers));
  markEntry(context, { kind: 'arrival', sourceId }, entry.day);
}

/** Marks the entry of a row, if it has one, as standing on the statement of a day. */
export function markEntry(context: CommandContext, source: Source, day: string): void {
  const posted = standingEntry(context.book).get({ ...source });
  if (posted) addRow(context, bankMark, { entryId: posted.id, day });
}

/** Takes the mark and the entry of an arrival back: what arrived waits again. */
export function postArrivalVoiding(context: CommandContext, arrivalId: number): void {
  const source = { kind: 'arrival', sourceId: arrivalId } as const;
  const entryId = standingEntry(context.book).get(source)?.id ?? 0;
  const mark = markOf(context.book, entryId);
  if (mark) addRow(context, bankMark, { entryId, day: mark.day, voidsId: mark.id });
  reverse(context, source);
}

/** Reverses the entry of a deposit: its checks and its cash wait again. */
export function postDepositVoiding(context: CommandContext, depositId: number): void {
  reverse(context, { kind: 'deposit', sourceId: depositId });
}
