/**
 * Two worked sales that go the treasurer's whole way through the book: one that uses every term, and the same with
 * corrections after its sheets were handed out and paid. The nets are worked by hand below and, with all other figures,
 * by big.js in worked-apart.ts; the journal is read by hledger, whose accounts have to be those of our balance.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type Big from 'big.js';
import { describe, expect, it } from 'vitest';
import { journalEntries } from '#db/account/queries.ts';
import type { Book } from '#db/book/open.ts';
import type { InputOf } from '#db/commands.ts';
import { closingFacts, drawerOverShort } from '#db/report/closing.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { issuedSheets } from '#db/settlement/sheets.ts';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { type Cents, formatMoney } from '#lib/money/money.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { ledgerText } from '#lib/report/journal.ts';
import { revenueOf } from '#lib/report/revenue.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { readRows } from '#tests/support/case-folder.ts';
import { caseFolder, filesIn, importFiles, withBook } from '#tests/support/exchange.ts';
import { type Hall, hallOf } from '#tests/support/hall.ts';
import { balancesOf, hledger } from '#tests/support/judges.ts';
import { closeSale } from '#tests/support/sales.ts';
import { type Rows, shown, sum, workedApart } from './worked-apart.ts';

const FOLDER = 'every-term';

function rowsOfFolder(): Rows {
  const sale = JSON.parse(readFileSync(join(caseFolder(FOLDER), 'sale.json'), 'utf8')) as Record<string, unknown>;
  const of = (name: string) => readRows(FOLDER, `${name}.csv`);
  return {
    terms: sale.terms as Record<string, unknown>,
    heldOn: String(sale.held_on),
    ...{ people: of('people'), sellers: of('sellers'), buyers: of('buyers'), lots: of('lots') },
    ...{ results: of('results'), charges: of('charges') },
  };
}

function evening(use: (hall: Hall) => void): void {
  withBook((book) => {
    importFiles(book, filesIn(caseFolder(FOLDER)));
    use(hallOf(book, 1));
  });
}

/** What the book says of every seller and buyer, beside what was worked apart from the same rows. */
function agrees(book: Book, rows: Rows): void {
  const facts = saleFacts(book, 1);
  const worked = workedApart(rows);
  const money = (amount: Cents) => formatMoney(amount);
  expect(
    settleSale(facts).map((one) => ({
      no: String(one.sellerNo),
      gross: money(one.grossCents),
      commission: money(one.commissionCents),
      fees: money((one.lotFeesCents + one.noSaleFeesCents) as Cents),
      charges: money(one.chargesCents),
      net: money(one.netCents),
      shares: one.shares.map(({ shareCents }) => money(shareCents)),
    })),
  ).toEqual(
    worked.sellers.map(({ no, gross, commission, fees, charges, net, shares }) => ({
      ...{ no, gross: shown(gross), commission: shown(commission), fees: shown(fees) },
      ...{ charges: shown(charges), net: shown(net), shares },
    })),
  );
  expect(
    invoiceSale(facts).map((one) => [one.amountCents, one.premiumCents, one.taxCents, one.totalCents].map(money)),
  ).toEqual(worked.buyers.map(({ amount, premium, tax, total }) => [amount, premium, tax, total].map(shown)));
}

/** hledger's accounts once all is paid: nobody owes, the money is there, and the income is what we say is kept. */
function ledgerAgrees(book: Book, rows: Rows): void {
  const facts = saleFacts(book, 1);
  const text = ledgerText(journalEntries(book, 1), 'USD');
  expect(hledger(text, 'check', '--strict')).toBe('');
  const balances = balancesOf(text, 'USD');
  const of = (start: string) =>
    [...balances].filter(([account]) => account.startsWith(start)).reduce((so, [, amount]) => so + inCents(amount), 0);
  for (const party of ['Assets:Buyers', 'Liabilities:Sellers']) expect(of(party)).toBe(0);
  const lines = new Map(closingLines(closingFacts(book, 1)).map((line) => [line.name, line]));
  const cash = ['Assets:Cash', 'Assets:Checks', 'Assets:Bank', 'Assets:Cards', 'Assets:Other payments'];
  expect(cash.reduce((so, account) => so + of(account), 0)).toBe(lines.get('money')?.left);
  const kept = revenueOf(facts, drawerOverShort(book, 1));
  expect(-of('Income:') - of('Expenses:')).toBe(kept.revenueCents);
  expect(-of('Liabilities:Sales tax')).toBe(kept.taxCents);
  // What was handed out has come back out of the proceeds.
  expect(kept.advancesCents).toBeGreaterThan(0);
  expect(of('Assets:Advances')).toBe(0);
  const { sellers, buyers } = workedApart(rows);
  const apart = (amounts: readonly Big[]) => inCents(shown(sum(amounts)));
  expect(kept.commissionCents).toBe(apart(sellers.map(({ commission }) => commission)));
  expect(kept.donatedCents).toBe(apart(sellers.map(({ donated }) => donated)));
  expect(kept.premiumCents).toBe(apart(buyers.map(({ premium }) => premium)));
  expect(kept.taxCents).toBe(apart(buyers.map(({ tax }) => tax)));
}

function inCents(amount: string): number {
  return Number(amount.replace('.', ''));
}

const netsOf = (book: Book) =>
  settleSale(saleFacts(book, 1)).map(({ sellerNo, netCents }) => [sellerNo, formatMoney(netCents)]);

describe('the worked sale of every term', () => {
  it('comes to the nets worked by hand, and to every figure worked apart', () => {
    evening(({ book }) => {
      // 21: 218.75 + 60.525 up to 60.53 + 52.25 + 3.25 = 334.78, less 12.03 + 4.39 + 2.87 + 0.35 (the least), 1.20, 4.50.
      // 22: 459.25 + 20.34 + 211.50 = 691.09, less 14.93 + 1.12 + 11.63, 1.20, 1.25 + 0.84, 4.50, 60.00 − 3.17.
      // 23, a guest: 73.00 less 4.745 up to 4.75, 0.60, 1.25 + 0.20, 4.50, 22.50. 24: −0.30 − 1.25 − 1.69 − 4.50, a bill.
      expect(netsOf(book)).toEqual([
        [21, '309.44'],
        [22, '598.79'],
        [23, '39.20'],
        [24, '-7.74'],
      ]);
      const shares = settleSale(saleFacts(book, 1))[1]?.shares.map(({ shareCents }) => formatMoney(shareCents));
      expect(shares).toEqual(['256.63', '171.08', '171.08']);
      agrees(book, rowsOfFolder());
    });
  });

  it('closes at zero once paid by check and in cash, and the ledger agrees', () => {
    evening(({ book, must, give }) => {
      must('settlement.issue', { saleId: 1, sellerNo: null, seen: 4 });
      must('check.write', { saleId: 1, sellerNo: null, firstNumber: 301, seen: 5 });
      closeSale({ book, must, give }, 1);
      ledgerAgrees(book, rowsOfFolder());
    });
  });
});

describe('the worked sale with corrections after issue', () => {
  it('is right again after each correction sheet, leaves every older sheet alone, and closes at zero', () => {
    evening(({ book, must, give }) => {
      must('settlement.issue', { saleId: 1, sellerNo: null, seen: 4 });
      must('check.write', { saleId: 1, sellerNo: null, firstNumber: 301, seen: 5 });
      const before = issuedSheets(book, 1).map(({ sheet }) => sheet);
      const correct = (lotNo: string, over: Partial<InputOf<'outcome.correct'>>) => {
        const find = `SELECT max(outcome.id) AS id, lot_id FROM outcome JOIN lot ON lot.id = lot_id WHERE lot_number = ?`;
        const { id: replacesId, lot_id: lotId } = book.sqlite.prepare(find).get(Number(lotNo)) as {
          readonly id: number;
          readonly lot_id: number;
        };
        const answered = ['off_step', 'price_unusual', 'below_minimum'] as const;
        must(
          'outcome.correct',
          { lotId, replacesId, kind: 'sold', buyerNo: 71, reason: 'misheard', answered, ...over },
          'block',
        );
      };
      const put = (sellerNo: number) => must('settlement.correct', { saleId: 1, sellerNo, reason: 'put right' });
      correct('1', { price: '30.25' });
      put(21);
      correct('7', { price: '19.00' });
      put(22);
      must('charge.add', {
        saleId: 1,
        sellerNo: 23,
        kind: 'adjustment',
        amount: '-5.00',
        how: 'deducted',
        note: 'a broken stretcher',
      });
      put(23);
      // 21: 7 × 1.00 less at 11.65 commission: 302.82. 22: 57.00 less 3.135 up to 3.14, without the no-sale fee of 2.09.
      expect(netsOf(book)).toEqual([
        [21, '302.82'],
        [22, '654.74'],
        [23, '44.20'],
        [24, '-7.74'],
      ]);
      correct('1', { price: '31.25' });
      put(21);
      const sheets = issuedSheets(book, 1);
      expect(
        sheets.map(({ sellerNo, number, correction }) => [sellerNo, number, correction?.corrects ?? null]),
      ).toEqual([
        ...[
          [21, 1, null],
          [21, 5, 1],
          [21, 8, 5],
          [22, 2, null],
          [22, 6, 2],
          [23, 3, null],
          [23, 7, 3],
          [24, 4, null],
        ],
      ]);
      const differences = sheets.flatMap(({ correction }) =>
        correction ? [[correction.differenceCents, correction.owingCents]] : [],
      );
      expect(differences).toEqual([
        [-662, -662],
        [662, 0],
        [5595, 5595],
        [500, 500],
      ]);
      expect(sheets.filter(({ correction }) => !correction).map(({ sheet }) => sheet)).toEqual(before);
      const rows = rowsOfFolder();
      const results = rows.results.map((row) =>
        row.lot_no === '7' ? { ...row, outcome: 'sold', price: '19.00', buyer_no: '71' } : row,
      );
      const stretcher = { seller_no: '23', kind: 'adjustment', amount: '-5.00', how: 'deducted', note: '' };
      const corrected = { ...rows, results, charges: [...rows.charges, stretcher] };
      agrees(book, corrected);
      must('check.write', { saleId: 1, sellerNo: null, firstNumber: 310, seen: 4 });
      closeSale({ book, must, give }, 1);
      ledgerAgrees(book, corrected);
    });
  });
});
