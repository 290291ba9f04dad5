/**
 * The sale in double entry, worked out anew from its facts: the second way, which the journal in the book is held to.
 * Every entry is made of transfers, each from one account to another, so it balances by the way it is built.
 */
import {
  ACCOUNTS,
  ARRIVING_ACCOUNTS,
  arrivalTransfers,
  buyerAccount,
  CHARGE_ACCOUNTS,
  chargeTransfer,
  paidInWords,
  paymentTransfer,
  sellerAccount,
  type Transfer,
  takingTransfer,
} from '#lib/account/account.ts';
import { paidBy } from '#lib/buyer/buyer.ts';
import { localDay } from '#lib/date/date.ts';
import { type BuyerInvoice, type InvoiceRow, invoiceSale } from '#lib/invoice/invoice.ts';
import { compareLotNo } from '#lib/lot/number.ts';
import { type Cents, formatMoney, negate, subtractCents, sumOf, ZERO } from '#lib/money/money.ts';
import { OUTCOME_WORDS } from '#lib/outcome/words.ts';
import { compareCodePoints, groupBy } from '#lib/result/text.ts';
import type { Charge, Payment, Sale, SaleFacts, Taking } from '#lib/sale/facts.ts';
import { type SellerSettlement, type SheetRow, settleSale } from '#lib/settlement/settlement.ts';
import { CHARGES } from '#lib/settlement/sheet.ts';
import { lower } from '#lib/settlement/spelling.ts';

interface Posting {
  readonly account: string;
  /** Never negative; one of debit and credit is 0. */
  readonly debitCents: Cents;
  readonly creditCents: Cents;
}

export interface JournalEntry {
  readonly date: string;
  readonly number: number;
  readonly memo: string;
  readonly postings: readonly Posting[];
}

type Draft = Omit<JournalEntry, 'number'>;

/** Every sale, premium, tax, commission, fee, charge, payment and taking of the sale, by date, numbered from 1. */
export function journalOf(facts: SaleFacts): JournalEntry[] {
  const settlements = settleSale(facts);
  const invoices = invoiceSale(facts);
  const drafts = [
    ...lotDrafts(facts.sale, settlements, invoices),
    ...invoices.map((invoice) => taxDraft(facts.sale, invoice)),
    ...settlements.map((settlement) => numberDraft(facts.sale, settlement)),
    ...facts.charges.map((charge) => chargeDraft(facts.sale, charge)),
    ...facts.payments.map((payment) => paymentDraft(payment, facts.timeZone)),
    ...facts.takings.map((taking) => takingDraft(taking, facts.timeZone)),
    ...facts.cardFees.map(({ method, day, feeCents }) =>
      draft(day, 'Card fee', arrivalTransfers(ARRIVING_ACCOUNTS[method], ZERO, feeCents)),
    ),
  ];
  return drafts
    .filter(({ postings }) => postings.length > 0)
    .sort((a, b) => compareCodePoints(a.date, b.date))
    .map((draft, at) => ({ ...draft, number: at + 1 }));
}

function draft(date: string, memo: string, transfers: readonly Transfer[]): Draft {
  const postings = transfers.flatMap(({ debit, credit, amount }) => {
    if (amount === ZERO) return [];
    // An amount below nothing goes the other way about, so that neither column is ever negative.
    const [to, from, size] = amount > ZERO ? [debit, credit, amount] : [credit, debit, negate(amount)];
    return [
      { account: to, debitCents: size, creditCents: ZERO },
      { account: from, debitCents: ZERO, creditCents: size },
    ];
  });
  return { date, memo, postings };
}

function lotDrafts(sale: Sale, settlements: readonly SellerSettlement[], invoices: readonly BuyerInvoice[]): Draft[] {
  const bought = new Map(
    invoices.flatMap(({ buyerNo, rows }) => rows.map((row) => [row.lotNo, { ...row, buyerNo }] as const)),
  );
  return settlements
    .flatMap(({ sellerNo, rows }) => rows.map((row) => ({ ...row, sellerNo })))
    .sort((a, b) => compareLotNo(a.lotNo, b.lotNo))
    .map((row) => lotDraft(sale, row, bought.get(row.lotNo)));
}

type OfSeller = SheetRow & { readonly sellerNo: number };
type OfBuyer = InvoiceRow & { readonly buyerNo: number };

function lotDraft(sale: Sale, row: OfSeller, bought: OfBuyer | undefined): Draft {
  const { sellerNo } = row;
  const seller = sellerAccount(sellerNo);
  const fees = [
    { debit: seller, credit: ACCOUNTS.commission, amount: row.commissionCents },
    { debit: seller, credit: ACCOUNTS.lotFees, amount: row.lotFeeCents },
    { debit: seller, credit: ACCOUNTS.noSaleFees, amount: row.noSaleFeeCents },
  ];
  // The others are one word each, and stay in the journals of all years as they are.
  const became = row.outcome === 'bought_back' ? OUTCOME_WORDS.bought_back : row.outcome;
  if (bought === undefined) return draft(sale.heldOn, `Lot ${row.lotNo} of seller ${sellerNo} ${became}`, fees);
  const buyer = buyerAccount(bought.buyerNo);
  const given = row.donated ? ', donated' : '';
  return draft(sale.heldOn, `Lot ${row.lotNo} of seller ${sellerNo} sold to buyer ${bought.buyerNo}${given}`, [
    { debit: buyer, credit: row.donated ? ACCOUNTS.donated : seller, amount: row.amountCents },
    { debit: buyer, credit: ACCOUNTS.premium, amount: bought.premiumCents },
    ...fees,
  ]);
}

function taxDraft(sale: Sale, { buyerNo, taxCents }: BuyerInvoice): Draft {
  const transfer = { debit: buyerAccount(buyerNo), credit: ACCOUNTS.tax, amount: taxCents };
  return draft(sale.heldOn, `Sales tax of buyer ${buyerNo}`, [transfer]);
}

function numberDraft(sale: Sale, { sellerNo, sellerNumberFeeCents }: SellerSettlement): Draft {
  const transfer = { debit: sellerAccount(sellerNo), credit: ACCOUNTS.sellerNumbers, amount: sellerNumberFeeCents };
  return draft(sale.heldOn, `Seller number ${sellerNo}`, [transfer]);
}

function chargeDraft(sale: Sale, charge: Charge): Draft {
  const { sellerNo, kind, how, amountCents: amount } = charge;
  const memo = `${CHARGES[kind]} of seller ${sellerNo}, ${how === 'deducted' ? 'deducted' : 'in cash'}`;
  const deducted = { debit: sellerAccount(sellerNo), credit: CHARGE_ACCOUNTS[kind], amount };
  const moved = chargeTransfer(charge, ACCOUNTS.cash);
  return draft(sale.heldOn, memo, [...(how === 'deducted' ? [deducted] : []), ...(moved ? [moved] : [])]);
}

function paymentDraft(payment: Payment, timeZone: string): Draft {
  const memo = `${paidInWords(payment)} ${partyName(payment)}, ${lower(paidBy(payment))}`;
  return draft(localDay(payment.paidAt, timeZone), memo, [paymentTransfer(payment, ACCOUNTS.cash)]);
}

function takingDraft(taking: Taking, timeZone: string): Draft {
  const { kind, method, note, takenAt } = taking;
  const memo = `Taken in, ${kind}, ${method}${note === '' ? '' : ` ${note}`}`;
  return draft(localDay(takenAt, timeZone), memo, [takingTransfer(taking, ACCOUNTS.cash)]);
}

function partyName({ buyerNo, sellerNo, personId }: Payment): string {
  if (buyerNo !== null) return `buyer ${buyerNo}`;
  return sellerNo === null ? `person ${personId ?? 'unknown'}` : `seller ${sellerNo}`;
}

/** The whole text, with LF line ends. `currency` is ISO 4217; a debit is positive, a credit negative. */
export function ledgerText(entries: readonly JournalEntry[], currency: string): string {
  const accounts = [...new Set(entries.flatMap(({ postings }) => postings.map(({ account }) => account)))];
  const declared = accounts.sort(compareCodePoints).map((account) => `account ${account}`);
  const head = [`commodity 1000.00 ${currency}`, '', ...declared].join('\n');
  return `${[head, ...entries.map((entry) => entryText(entry, currency))].join('\n\n')}\n`;
}

function entryText({ date, number, memo, postings }: JournalEntry, currency: string): string {
  const lines = postings.map((posting) => postingText(posting, currency));
  return [`${date} (${number}) ${plain(memo)}`, ...lines].join('\n');
}

function postingText({ account, debitCents, creditCents }: Posting, currency: string): string {
  const amount = formatMoney(debitCents > 0 ? debitCents : negate(creditCents));
  return `    ${account.padEnd(32)}  ${amount.padStart(14)} ${currency}`;
}

/** A semicolon would begin a comment and a bar a payee, and a line end would end the entry. */
function plain(memo: string): string {
  return memo.replace(/[\s;|]+/gu, ' ').trim();
}

/** Debits less credits of each account, in the order of the accounts' names. */
export function accountBalances(entries: readonly JournalEntry[]): Map<string, Cents> {
  const postings = entries.flatMap((entry) => entry.postings);
  const accounts = [...groupBy(postings, ({ account }) => account)].sort(([a], [b]) => compareCodePoints(a, b));
  return new Map(
    accounts.map(([account, own]) => [account, subtractCents(sumOf(own, 'debitCents'), sumOf(own, 'creditCents'))]),
  );
}
