/** Asks hledger (hledger.org), a general ledger program. It has to be there; without it whoever asks fails. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { tempFile } from '#tests/support/temp.ts';

export function hledger(text: string, ...args: string[]): string {
  const file = tempFile('sale.journal');
  writeFileSync(file, text);
  // Names and references may carry any letter, which hledger reads in the encoding of its locale.
  const env = { ...process.env, LANG: 'C.UTF-8', LC_ALL: 'C.UTF-8' };
  return execFileSync('hledger', ['-f', file, ...args], { env, encoding: 'utf8', stdio: 'pipe' });
}

/** The balance of each account as hledger works it out, in the spelling of the exchange folder. */
export function balancesOf(text: string, currency: string): Map<string, string> {
  const out = hledger(text, 'balance', '--flat', '--empty', '--no-total', '--output-format=csv');
  const rows = parse(out, { columns: true }) as { account: string; balance: string }[];
  return new Map(rows.map(({ account, balance }) => [account, spelled(balance, currency)]));
}

function spelled(balance: string, currency: string): string {
  return balance === '0' ? '0.00' : balance.replace(` ${currency}`, '');
}
