/** Holds the journal to what it is of: the papers that were handed out, the payments in force, the drawer, the sale. */
import { arrivedCents, depositedCents } from '#db/bank/queries.ts';
import { saleById } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { drawerEntries, drawerMoves, drawerStands } from '#db/drawer/queries.ts';
import { issuedInvoices } from '#db/invoice/queries.ts';
import { issuedSheets, newestSheets } from '#db/settlement/sheets.ts';
import { ACCOUNTS, buyerAccount, sellerAccount } from '#lib/account/account.ts';
import { addCents, type Cents, negate, subtractCents, sumCents, sumOf, ZERO } from '#lib/money/money.ts';
import { balanceWords } from '#lib/payment/amount-words.ts';
import { entryProblems } from '#lib/report/balance.ts';
import { overShortOf } from '#lib/report/closing-line.ts';
import { accountBalances, journalOf } from '#lib/report/journal.ts';
import type { Payment, SaleFacts } from '#lib/sale/facts.ts';
import { paidIn } from '#lib/seller/account.ts';
import { journalEntries } from './queries.ts';

type Balances = ReadonlyMap<string, Cents>;

/** What is wrong with the journal of a sale, each in a sentence. */
export function journalProblems(book: Book, saleId: number, facts: SaleFacts): string[] {
  const entries = journalEntries(book, saleId);
  const balances = accountBalances(entries);
  const drawer = { drawer: drawerEntries(book, saleId), moves: drawerMoves(book, saleId) };
  return [
    ...entries.flatMap(entryProblems),
    ...unequal(balances, ACCOUNTS.drawer, drawerStands(book, saleId).holdsCents),
    ...unequal(balances, ACCOUNTS.bank, atBank(book, saleId, facts)),
    ...unequal(balances, ACCOUNTS.overShort, negate(overShortOf(drawer))),
    ...partyProblems(book, saleId, { facts, balances }),
    ...(saleById(book, saleId)?.stage === 'closed' ? closedProblems(facts, balances) : []),
  ];
}

/** What the bank account should come to: deposits, less the checks of them that came back, what arrived, less the checks written. */
function atBank(book: Book, saleId: number, facts: SaleFacts): Cents {
  const written = facts.payments.filter(({ direction, method }) => direction === 'out' && method === 'check');
  const came = addCents(depositedCents(book, saleId), arrivedCents(book, saleId));
  return subtractCents(came, sumOf(written, 'amountCents'));
}

function unequal(balances: Balances, account: string, expected: Cents): string[] {
  const posted = balances.get(account) ?? ZERO;
  if (posted === expected) return [];
  return [`The journal has ${balanceWords(posted)} in ${account}, where it should be ${balanceWords(expected)}.`];
}

interface Posted {
  readonly facts: SaleFacts;
  readonly balances: Balances;
}

/** Each seller's account is the newest sheet less what was paid, each buyer's the newest invoice less what was paid. */
function partyProblems(book: Book, saleId: number, { facts, balances }: Posted): string[] {
  const paid = (of: (payment: Payment) => boolean) => paidIn(facts.payments.filter(of));
  const sheets = [...newestSheets(issuedSheets(book, saleId)).values()];
  const invoices = new Map(issuedInvoices(book, saleId).map(({ invoice }) => [invoice.buyer.buyerNo, invoice.totals]));
  return [
    ...sheets.flatMap(({ sellerNo, sheet }) => {
      const owed = sumCents([sheet.totals.netCents, paid((one) => one.sellerNo === sellerNo)]);
      return unequal(balances, sellerAccount(sellerNo), negate(owed));
    }),
    ...[...invoices].flatMap(([buyerNo, { totalCents }]) => {
      const due = subtractCents(
        totalCents,
        paid((one) => one.buyerNo === buyerNo),
      );
      return unequal(balances, buyerAccount(buyerNo), due);
    }),
  ];
}

const CASH: ReadonlySet<string> = new Set([ACCOUNTS.cash, ACCOUNTS.drawer, ACCOUNTS.outside, ACCOUNTS.overShort]);

/**
 * Once a sale is closed, its journal comes to what its facts come to; of the money at hand and at the bank, all kinds of
 * it together. What is done after the closing is in both.
 */
function closedProblems(facts: SaleFacts, balances: Balances): string[] {
  const worked = accountBalances(journalOf(facts));
  const beside = [...balances.keys(), ...worked.keys()].filter((account) => !CASH.has(account) && !isAtHand(account));
  const atHand = (from: Balances) =>
    sumCents([...from].flatMap(([name, amount]) => (CASH.has(name) || isAtHand(name) ? [amount] : [])));
  const problems = [...new Set(beside)].flatMap((account) => unequal(balances, account, worked.get(account) ?? ZERO));
  const together = unequal(new Map([['all money at hand', atHand(balances)]]), 'all money at hand', atHand(worked));
  return [...problems, ...together];
}

const AT_HAND: ReadonlySet<string> = new Set([ACCOUNTS.checks, ACCOUNTS.cards, ACCOUNTS.other, ACCOUNTS.bank]);

/** What is over or short of them is posted when the drawer is closed; deposits go from them to the bank. */
function isAtHand(account: string): boolean {
  return AT_HAND.has(account);
}
