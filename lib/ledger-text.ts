/** The journal as plain-text accounting, which general ledger programs read: accounts and commodity are declared. */
import type { JournalEntry, Posting } from '#lib/double-entry.ts';
import { formatMoney, negate } from '#lib/money.ts';
import { compareCodePoints } from '#lib/order.ts';

/** The whole text, with LF line ends. `currency` is ISO 4217; a debit is positive, a credit negative. */
export function ledgerText(entries: readonly JournalEntry[], currency: string): string {
  const accounts = [...new Set(entries.flatMap(({ postings }) => postings.map(({ account }) => account)))];
  const declared = accounts.sort(compareCodePoints).map((account) => `account ${account}`);
  const head = [`commodity 1000.00 ${currency}`, '', ...declared].join('\n');
  return `${[head, ...entries.map((entry) => entryText(entry, currency))].join('\n\n')}\n`;
}

function entryText({ date, number, memo, postings }: JournalEntry, currency: string): string {
  return [`${date} (${number}) ${plain(memo)}`, ...postings.map((posting) => postingText(posting, currency))].join(
    '\n',
  );
}

function postingText({ account, debitCents, creditCents }: Posting, currency: string): string {
  const amount = formatMoney(debitCents > 0 ? debitCents : negate(creditCents));
  return `    ${account.padEnd(32)}  ${amount.padStart(14)} ${currency}`;
}

/** A semicolon would begin a comment and a bar a payee, and a line end would end the entry. */
function plain(memo: string): string {
  return memo.replace(/[\s;|]+/gu, ' ').trim();
}
