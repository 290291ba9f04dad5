/** What the cells of one row must agree on. */
import { decideLot } from '#lib/decide-lot.ts';
import { type Refusal, refuse } from '#lib/result.ts';
import type { Report } from './problem.ts';
import type { Rows } from './rows.ts';

export function checkEachRow(rows: Rows, report: Report): void {
  for (const row of rows.results) checkResult(row, report);
  for (const row of rows.charges) checkCharge(row, report);
  for (const row of rows.payments) checkPayment(row, report);
  checkLots(rows, report);
}

function checkResult({ line, cells }: Rows['results'][number], report: Report): void {
  const { outcome, price, buyer_no } = cells;
  const tell = (column: string, refusal: Refusal) => report({ file: 'results.csv', line, column }, refusal);
  if (outcome === undefined) return;
  if (outcome === 'sold') {
    if (price === null) tell('price', refuse('missing', 'Enter the hammer price, or write passed.'));
    if (buyer_no === null) tell('buyer_no', refuse('missing', 'Enter the buyer number, or write passed.'));
    return;
  }
  const clear = (what: string) =>
    refuse('malformed', `Clear this cell, or write sold: a lot that is ${outcome} has no ${what}.`);
  if (price !== null && price !== undefined) tell('price', clear('price'));
  if (buyer_no !== null && buyer_no !== undefined) tell('buyer_no', clear('buyer'));
}

function checkCharge({ line, cells }: Rows['charges'][number], report: Report): void {
  const { kind, amount } = cells;
  if (kind === undefined || kind === 'adjustment' || amount === undefined || amount >= 0) return;
  const say = 'Enter the amount without a minus: only an adjustment can be in the seller\u2019s favour.';
  report({ file: 'charges.csv', line, column: 'amount' }, refuse('malformed', say));
}

function checkPayment({ line, cells }: Rows['payments'][number], report: Report): void {
  const { buyer_no, seller_no, person_id } = cells;
  const place = { file: 'payments.csv', line, column: 'buyer_no' };
  if (buyer_no === null && seller_no === null && person_id === null) {
    report(place, refuse('missing', 'Say whose money it is: enter a buyer number, a seller number or a person.'));
  } else if (typeof buyer_no === 'number' && typeof seller_no === 'number') {
    report(place, refuse('malformed', 'Say whose money it is: keep the buyer number or the seller number, not both.'));
  }
}

function checkLots({ lots, goods }: Rows, report: Report): void {
  const exportTags = new Map(goods.map(({ cells }) => [cells.goods, cells.export_tag]));
  for (const { line, cells } of lots) {
    const { by, count, weight, minimum, goods: kind } = cells;
    if (by === undefined || count === undefined || weight === undefined || minimum === undefined) continue;
    const exportTag = exportTags.get(kind) ?? false;
    const lot = { by, count, weightThousandths: weight, minimumCents: minimum, withoutReserve: false, exportTag };
    const decided = decideLot(lot);
    if (decided.ok) continue;
    for (const refusal of [decided, ...(decided.also ?? [])]) {
      report({ file: 'lots.csv', line, column: refusal.field ?? '-' }, refusal);
    }
  }
}
