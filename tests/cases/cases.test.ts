import { describe, expect, it } from 'vitest';
import { invoiceSale } from '#lib/invoice/invoice.ts';
import { type Cents, formatMoney } from '#lib/money/money.ts';
import { priceTable } from '#lib/price/table.ts';
import { saleBalance } from '#lib/report/balance.ts';
import { settleSale } from '#lib/settlement/settlement.ts';
import { readCase, readTable } from '#tests/support/case-folder.ts';

/** Finished rows as the exchange folder writes them: whole numbers as digits, money with its cents. */
const row = (...cells: (string | number)[]) => cells.map(String);
const amounts = (...cents: Cents[]) => cents.map(formatMoney);

/** Worked apart from this program with another language's decimal library; see README.md beside this file. */
describe.each(['by-hand', 'sixty-lots'])('the worked sale %s', (folder) => {
  const { facts } = readCase(folder);
  const settlements = settleSale(facts);

  it('gives its settlements', () => {
    const rows = settlements.map((one) => [
      ...row(one.sellerNo, one.lotsSold, one.lotsPassed),
      ...amounts(one.grossCents, one.commissionCents, one.lotFeesCents, one.noSaleFeesCents),
      ...amounts(one.sellerNumberFeeCents, one.chargesCents, one.netCents),
    ]);
    expect(rows).toEqual(readTable(folder, 'settlements.csv').slice(1));
  });

  it("gives its partners' shares", () => {
    const rows = settlements.flatMap(({ sellerNo, shares }) =>
      shares.map(({ personId, parts, shareCents }) => row(sellerNo, personId, parts, formatMoney(shareCents))),
    );
    expect(rows).toEqual(readTable(folder, 'settlement_shares.csv').slice(1));
  });

  it('gives its settlement lines', () => {
    const rows = settlements.flatMap(({ sellerNo, rows }) =>
      rows.map((line) => [
        ...row(sellerNo, line.lotNo, line.outcome, line.donated ? 'yes' : 'no'),
        ...amounts(line.amountCents, line.commissionCents, line.feesCents, line.netCents),
      ]),
    );
    expect(rows).toEqual(readTable(folder, 'settlement_lines.csv').slice(1));
  });

  it('gives its invoices', () => {
    const rows = invoiceSale(facts).map((one) => [
      ...row(one.buyerNo, one.lots),
      ...amounts(one.amountCents, one.premiumCents, one.taxCents, one.totalCents),
    ]);
    expect(rows).toEqual(readTable(folder, 'invoices.csv').slice(1));
  });

  it('gives its price table', () => {
    const rows = priceTable(facts).map((one) => [
      ...row(one.season, one.goods, one.section, one.measure, one.lots, one.quantity),
      ...amounts(one.lowCents, one.p25Cents, one.medianCents, one.p75Cents, one.highCents),
      ...amounts(one.averageCents, one.totalCents),
    ]);
    expect(rows).toEqual(readTable(folder, 'price_table.csv').slice(1));
  });

  it('balances', () => {
    expect(saleBalance(facts).map(({ difference }) => difference)).toEqual([0, 0, 0, 0]);
  });
});
