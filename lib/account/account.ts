/**
 * The accounts of a sale, and what each bill, sheet, payment and charge moves between them. Liabilities:Sellers:n ends at
 * that seller's net less what was paid out, Assets:Buyers:n at the buyer's total less what was paid in.
 */
import type { BuyerInvoice } from '#lib/invoice/invoice.ts';
import { addCents, type Cents, negate, sumOf, ZERO } from '#lib/money/money.ts';
import type { Charge, ChargeKind, Direction, Method, Payment, Taking, TakingKind } from '#lib/sale/facts.ts';
import type { SellerSettlement } from '#lib/settlement/settlement.ts';

/** What an entry of the journal is of. */
export type EntryKind = 'purchases' | 'proceeds' | 'payment' | 'charge' | 'taking' | 'drawer' | 'deposit' | 'arrival';

export const ACCOUNTS = {
  commission: 'Income:Commission',
  lotFees: 'Income:Lot fees',
  noSaleFees: 'Income:No-sale fees',
  sellerNumbers: 'Income:Seller numbers',
  premium: "Income:Buyer's premium",
  donated: 'Income:Donated lots',
  dues: 'Income:Dues',
  adjustments: 'Income:Adjustments',
  raffle: 'Income:Raffle',
  door: 'Income:Door',
  donations: 'Income:Donations',
  food: 'Income:Food',
  otherTakings: 'Income:Other takings',
  overShort: 'Income:Cash over and short',
  checkFees: 'Income:Returned-check fees',
  badDebts: 'Expenses:Debts written off',
  cardFees: 'Expenses:Card fees',
  setOff: 'Assets:Set off',
  tax: 'Liabilities:Sales tax',
  /** What lots brought, between the bill of the buyer and the sheet of the seller: nothing once both are made out. */
  hammer: 'Liabilities:Fur sold and not settled',
  /** What was handed to sellers before they were settled: deducting it from their proceeds takes it off here. */
  advances: 'Assets:Advances to sellers',
  cash: 'Assets:Cash',
  drawer: 'Assets:Cash:Drawer',
  /** Below nothing while the float of an open drawer is out. */
  outside: 'Assets:Cash:Outside the drawer',
  checks: 'Assets:Checks',
  bank: 'Assets:Bank',
  cards: 'Assets:Cards',
  other: 'Assets:Other payments',
} as const;

/** Where money lies that is the association's to spend: a move between two of them is neither in nor out. */
export const MONEY_ACCOUNTS: readonly string[] = [
  ...[ACCOUNTS.cash, ACCOUNTS.drawer, ACCOUNTS.outside, ACCOUNTS.checks],
  ...[ACCOUNTS.bank, ACCOUNTS.cards, ACCOUNTS.other],
];

export type CashAccount = typeof ACCOUNTS.cash | typeof ACCOUNTS.drawer | typeof ACCOUNTS.outside;

export function buyerAccount(buyerNo: number): string {
  return `Assets:Buyers:${buyerNo}`;
}

export function sellerAccount(sellerNo: number): string {
  return `Liabilities:Sellers:${sellerNo}`;
}

/** So many cents that the first account is debited with and the second credited. */
export interface Transfer {
  readonly debit: string;
  readonly credit: string;
  readonly amount: Cents;
}

/** What a bill moves: the buyer owes what the lots brought, the premium and the tax. */
export function purchaseTransfers({
  buyerNo,
  amountCents,
  premiumCents,
  taxCents,
}: Pick<BuyerInvoice, 'buyerNo' | 'amountCents' | 'premiumCents' | 'taxCents'>): Transfer[] {
  const debit = buyerAccount(buyerNo);
  return [
    { debit, credit: ACCOUNTS.hammer, amount: amountCents },
    { debit, credit: ACCOUNTS.premium, amount: premiumCents },
    { debit, credit: ACCOUNTS.tax, amount: taxCents },
  ];
}

type Settled = Pick<
  SellerSettlement,
  'sellerNo' | 'rows' | 'grossCents' | 'commissionCents' | 'lotFeesCents' | 'noSaleFeesCents' | 'sellerNumberFeeCents'
>;

export const CHARGE_ACCOUNTS: Readonly<Record<ChargeKind, string>> = {
  dues: ACCOUNTS.dues,
  advance: ACCOUNTS.advances,
  adjustment: ACCOUNTS.adjustments,
};

/** What a sheet moves: the seller is owed what the lots brought, less commission, fees and what is deducted. */
export function proceedsTransfers(settled: Settled, charges: readonly Pick<Charge, 'kind' | 'how' | 'amountCents'>[]) {
  const seller = sellerAccount(settled.sellerNo);
  const given = settled.rows.filter(({ donated }) => donated);
  const off = (credit: string, amount: Cents): Transfer => ({ debit: seller, credit, amount });
  const deducted = charges.filter(({ how }) => how === 'deducted');
  const transfers: Transfer[] = [
    { debit: ACCOUNTS.hammer, credit: seller, amount: settled.grossCents },
    { debit: ACCOUNTS.hammer, credit: ACCOUNTS.donated, amount: sumOf(given, 'amountCents') },
    off(ACCOUNTS.commission, settled.commissionCents),
    off(ACCOUNTS.lotFees, settled.lotFeesCents),
    off(ACCOUNTS.noSaleFees, settled.noSaleFeesCents),
    off(ACCOUNTS.sellerNumbers, settled.sellerNumberFeeCents),
    ...deducted.map(({ kind, amountCents }) => off(CHARGE_ACCOUNTS[kind], amountCents)),
  ];
  return transfers;
}

type Paid = Pick<Payment, 'direction' | 'method' | 'amountCents'>;

/** Whose payment it is: money of a person under neither a buyer's nor a seller's number is always dues. */
export type PaidBy = Pick<Payment, 'buyerNo' | 'sellerNo'>;

/** Where a payment lies: a check taken in waits to be banked, a check written out is drawn on the bank. */
function methodAccount(method: Method, direction: Direction, cash: CashAccount): string {
  const check = direction === 'in' ? ACCOUNTS.checks : ACCOUNTS.bank;
  const { cards: card, other, setOff: set_off, badDebts: written_off, checkFees: check_fee } = ACCOUNTS;
  return { cash, card, other, check, set_off, written_off, check_fee }[method];
}

function partyAccount({ buyerNo, sellerNo }: PaidBy): string {
  if (buyerNo !== null) return buyerAccount(buyerNo);
  return sellerNo === null ? ACCOUNTS.dues : sellerAccount(sellerNo);
}

export function paymentTransfer({ direction, method, amountCents: amount, ...by }: Paid & PaidBy, cash: CashAccount) {
  const money = methodAccount(method, direction, cash);
  const party = partyAccount(by);
  const [debit, credit] = direction === 'in' ? [money, party] : [party, money];
  return { debit, credit, amount };
}

/** How the memo of a payment begins. */
export function paidInWords({ direction, method }: Pick<Payment, 'direction' | 'method'>): string {
  if (method === 'check_fee') return direction === 'out' ? 'Charged to' : 'Taken off';
  if (method === 'written_off') return 'Debt of';
  if (method === 'set_off') return direction === 'in' ? 'Owed by' : 'Owed to';
  return direction === 'in' ? 'Paid in by' : 'Paid out to';
}

/**
 * What a charge moves by itself: one that is paid in cash, and an advance, which was handed out of the cash outside the
 * drawer. That it is deducted is part of the sheet; null where nothing else is moved.
 */
export function chargeTransfer(
  charge: Pick<Charge, 'kind' | 'how' | 'amountCents'>,
  cash: CashAccount,
): Transfer | null {
  if (charge.how === 'cash') return cashChargeTransfer(charge, cash);
  if (charge.kind !== 'advance') return null;
  return {
    debit: ACCOUNTS.advances,
    credit: cash === ACCOUNTS.cash ? cash : ACCOUNTS.outside,
    amount: charge.amountCents,
  };
}

function cashChargeTransfer({ kind, amountCents: amount }: Pick<Charge, 'kind' | 'amountCents'>, cash: CashAccount) {
  return { debit: cash, credit: CHARGE_ACCOUNTS[kind], amount };
}

export const TAKING_ACCOUNTS: Readonly<Record<TakingKind, string>> = {
  ...{ raffle: ACCOUNTS.raffle, door: ACCOUNTS.door, donation: ACCOUNTS.donations },
  ...{ food: ACCOUNTS.food, other: ACCOUNTS.otherTakings },
};

export function takingTransfer(
  { kind, method, amountCents: amount }: Pick<Taking, 'kind' | 'method' | 'amountCents'>,
  cash: CashAccount,
) {
  return { debit: methodAccount(method, 'in', cash), credit: TAKING_ACCOUNTS[kind], amount };
}

/** What a deposit moves to the bank. */
export function depositTransfers(checksCents: Cents, cashCents: Cents): Transfer[] {
  return [
    { debit: ACCOUNTS.bank, credit: ACCOUNTS.checks, amount: checksCents },
    { debit: ACCOUNTS.bank, credit: ACCOUNTS.outside, amount: cashCents },
  ];
}

/** Where money lies that comes to the account by itself, until it has arrived. */
export const ARRIVING_ACCOUNTS = { card: ACCOUNTS.cards, other: ACCOUNTS.other } as const;

/** What moves to the bank when such money arrived, and what was kept of it. */
export function arrivalTransfers(credit: string, arrivedCents: Cents, feeCents: Cents): Transfer[] {
  return [
    { debit: ACCOUNTS.bank, credit, amount: arrivedCents },
    { debit: ACCOUNTS.cardFees, credit, amount: feeCents },
  ];
}

/** One account of an entry: a debit is above nothing, a credit below. */
export interface Posting {
  readonly account: string;
  readonly amountCents: Cents;
}

/** What transfers come to in each account that they change, in the order in which the accounts are named first. */
export function postingsOf(transfers: readonly Transfer[]): Posting[] {
  const sums = new Map<string, Cents>();
  const add = (account: string, amount: Cents) => sums.set(account, addCents(sums.get(account) ?? ZERO, amount));
  for (const { debit, credit, amount } of transfers) {
    add(debit, amount);
    add(credit, negate(amount));
  }
  return [...sums]
    .filter(([, amountCents]) => amountCents !== ZERO)
    .map(([account, amountCents]) => ({ account, amountCents }));
}
