/** The proof that nothing is missing: each line has two sides that were added up on different ways. */
import { ACCOUNTS, buyerAccount, sellerAccount, TAKING_ACCOUNTS } from '#lib/account/account.ts';
import { type BuyerInvoice, invoiceSale } from '#lib/invoice/invoice.ts';
import { lotAmount } from '#lib/lot/amount.ts';
import { addCents, type Cents, negate, subtractCents, sumCents, sumOf, ZERO } from '#lib/money/money.ts';
import { OUTCOME_WORDS } from '#lib/outcome/words.ts';
import { balanceWords } from '#lib/payment/amount-words.ts';
import { TAKING_KINDS, takenOf } from '#lib/payment/taking.ts';
import type { Lot, OutcomeKind, SaleFacts } from '#lib/sale/facts.ts';
import { paidIn } from '#lib/seller/account.ts';
import { type SellerSettlement, settleSale } from '#lib/settlement/settlement.ts';
import { accountBalances, type JournalEntry, journalOf } from './journal.ts';

/** One line of the balance. `left`, `right` and `difference` (left less right) are whole cents, pieces or lots. */
interface BalanceLine {
  readonly name: 'buyers' | 'sellers' | 'pieces' | 'lots';
  readonly unit: 'cents' | 'pieces' | 'lots';
  readonly leftWords: string;
  readonly rightWords: string;
  readonly left: number;
  readonly right: number;
  readonly difference: number;
}

/** The lines of a sale's balance; a sale that balances has no difference in any. */
export function saleBalance(facts: SaleFacts): BalanceLine[] {
  const invoices = invoiceSale(facts);
  const hammer = hammerOf(facts);
  return [
    buyersLine(invoices, hammer),
    sellersLine(settleSale(facts), hammer),
    countLine(facts, 'pieces', (lot) => lot.count ?? 0),
    countLine(facts, 'lots', () => 1),
  ];
}

type Hammer = ReturnType<typeof hammerOf>;

function hammerOf({ lots, outcomes }: SaleFacts) {
  const byNo = new Map(lots.map((lot) => [lot.lotNo, lot]));
  const sold = outcomes.flatMap(({ lotNo, kind, priceCents }) => {
    const lot = byNo.get(lotNo);
    if (lot === undefined || kind !== 'sold' || priceCents === null) return [];
    return [{ donated: lot.donated, amountCents: lotAmount(priceCents, lot) }];
  });
  const given = sold.filter(({ donated }) => donated);
  return { allCents: sumOf(sold, 'amountCents'), donatedCents: sumOf(given, 'amountCents') };
}

function buyersLine(invoices: readonly BuyerInvoice[], hammer: Hammer): BalanceLine {
  const left = sumOf(invoices, 'totalCents');
  const premium = sumOf(invoices, 'premiumCents');
  const tax = sumOf(invoices, 'taxCents');
  const words = { leftWords: 'invoices', rightWords: 'hammer prices, premium and tax' };
  return line('buyers', { unit: 'cents', ...words, left, right: addCents(hammer.allCents, premium, tax) });
}

function sellersLine(settlements: readonly SellerSettlement[], hammer: Hammer): BalanceLine {
  const right = sumCents(
    settlements.flatMap((one) => [
      ...one.shares.map(({ shareCents }) => shareCents),
      one.commissionCents,
      one.lotFeesCents,
      one.noSaleFeesCents,
      one.sellerNumberFeeCents,
      one.chargesCents,
    ]),
  );
  const rightWords = 'nets, commission, fees, charges deducted and donated lots';
  const sides = { left: hammer.allCents, right: addCents(right, hammer.donatedCents) };
  return line('sellers', { unit: 'cents', leftWords: 'hammer prices', rightWords, ...sides });
}

function countLine(facts: SaleFacts, unit: 'pieces' | 'lots', size: (lot: Lot) => number): BalanceLine {
  const byNo = new Map(facts.lots.map((lot) => [lot.lotNo, size(lot)]));
  const left = facts.lots.reduce((so, lot) => so + size(lot), 0);
  const byKind: Record<OutcomeKind | 'waiting', number> = {
    ...{ sold: 0, passed: 0, withdrawn: 0, bought_back: 0, unpaid: 0, waiting: 0 },
  };
  for (const { lotNo, kind } of facts.outcomes) byKind[kind] += byNo.get(lotNo) ?? 0;
  const called = new Set(facts.outcomes.map(({ lotNo }) => lotNo));
  for (const lot of facts.lots) if (!called.has(lot.lotNo)) byKind.waiting += size(lot);
  const right = Object.values(byKind).reduce((so, many) => so + many, 0);
  // Most sales have none of the two.
  const seldom = (['bought_back', 'unpaid'] as const)
    .filter((kind) => byKind[kind] > 0)
    .map((kind) => `${byKind[kind]} ${OUTCOME_WORDS[kind]}, `);
  const rightWords = `${byKind.sold} sold, ${byKind.passed} passed, ${byKind.withdrawn} withdrawn, ${seldom.join('')}${byKind.waiting} not yet called`;
  return line(unit, { unit, leftWords: `${unit} brought in`, rightWords, left, right });
}

function line(name: BalanceLine['name'], rest: Omit<BalanceLine, 'name' | 'difference'>): BalanceLine {
  return { name, ...rest, difference: rest.left - rest.right };
}

/**
 * What must be true of the money of every sale, whatever happened at it. Each finding is one sentence; a sale without
 * any is sound. The parts are checked by adding them up once more, not by the functions that made them.
 */
export function moneyProblems(facts: SaleFacts): string[] {
  const settlements = settleSale(facts);
  const invoices = invoiceSale(facts);
  const journal = journalOf(facts);
  return [
    ...settlements.flatMap(settlementProblems),
    ...invoices.flatMap(invoiceProblems),
    ...journal.flatMap(entryProblems),
    ...accountProblems(facts, { settlements, invoices, journal }),
    ...saleBalance(facts).flatMap(balanceProblems),
  ];
}

/** Lines add up to the sums, the sums to the net, and the partners' shares to the net. */
export function settlementProblems(one: SellerSettlement): string[] {
  const who = `The settlement of seller ${one.sellerNo}`;
  const kept = one.rows.filter(({ donated }) => !donated);
  const off = [one.commissionCents, one.lotFeesCents, one.noSaleFeesCents, one.sellerNumberFeeCents, one.chargesCents];
  return [
    ...unequal(`${who}: gross`, one.grossCents, sumOf(kept, 'amountCents')),
    ...unequal(`${who}: commission`, one.commissionCents, sumOf(one.rows, 'commissionCents')),
    ...unequal(`${who}: lot fees`, one.lotFeesCents, sumOf(one.rows, 'lotFeeCents')),
    ...unequal(`${who}: no-sale fees`, one.noSaleFeesCents, sumOf(one.rows, 'noSaleFeeCents')),
    ...unequal(`${who}: net`, one.netCents, subtractCents(one.grossCents, sumCents(off))),
    ...unequal(`${who}: shares`, sumOf(one.shares, 'shareCents'), one.netCents),
  ];
}

export function invoiceProblems(one: BuyerInvoice): string[] {
  const who = `The invoice of buyer ${one.buyerNo}`;
  const parts = [one.amountCents, one.premiumCents, one.taxCents];
  return [
    ...unequal(`${who}: lots`, one.amountCents, sumOf(one.rows, 'amountCents')),
    ...unequal(`${who}: premium`, one.premiumCents, sumOf(one.rows, 'premiumCents')),
    ...unequal(`${who}: total`, one.totalCents, sumCents(parts)),
  ];
}

export function entryProblems({ number, memo, postings }: JournalEntry): string[] {
  const debit = sumOf(postings, 'debitCents');
  const credit = sumOf(postings, 'creditCents');
  return unequal(`Entry ${number} of the journal (${memo}): debit and credit`, debit, credit);
}

export function balanceProblems({ name, leftWords, left, rightWords, right, difference }: BalanceLine): string[] {
  if (difference === 0) return [];
  return [`The balance of ${name} is open: ${leftWords} ${left}, ${rightWords} ${right}.`];
}

interface Papers {
  readonly settlements: readonly SellerSettlement[];
  readonly invoices: readonly BuyerInvoice[];
  readonly journal: readonly JournalEntry[];
}

/** The journal ends where the papers say: at what each seller is still owed, each buyer still owes, and the tax. */
export function accountProblems(
  facts: Pick<SaleFacts, 'payments' | 'takings'>,
  { settlements, invoices, journal }: Papers,
): string[] {
  const balances = accountBalances(journal);
  const debit = (account: string) => balances.get(account) ?? ZERO;
  const credit = (account: string) => negate(debit(account));
  return [
    ...settlements.flatMap(({ sellerNo, netCents }) => {
      const paid = paidIn(facts.payments.filter((payment) => payment.sellerNo === sellerNo));
      return unequal(`The account of seller ${sellerNo}`, credit(sellerAccount(sellerNo)), addCents(netCents, paid));
    }),
    ...invoices.flatMap(({ buyerNo, totalCents }) => {
      const paid = paidIn(facts.payments.filter((payment) => payment.buyerNo === buyerNo));
      return unequal(`The account of buyer ${buyerNo}`, debit(buyerAccount(buyerNo)), subtractCents(totalCents, paid));
    }),
    ...TAKING_KINDS.flatMap((kind) =>
      unequal(`The takings, ${kind}`, credit(TAKING_ACCOUNTS[kind]), takenOf(facts.takings, kind)),
    ),
    ...unequal('The sales tax', credit(ACCOUNTS.tax), sumOf(invoices, 'taxCents')),
    ...unequal('All accounts of the journal', sumCents(balances.values()), ZERO),
  ];
}

function unequal(what: string, is: Cents, ought: Cents): string[] {
  return is === ought ? [] : [`${what}: ${balanceWords(is)} where it ought to be ${balanceWords(ought)}.`];
}
