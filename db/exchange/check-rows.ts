/** What the cells of one row must agree on. */
import { decideLot } from '#lib/lot/decide-lot.ts';
import { ZERO } from '#lib/money/money.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';
import type { Report } from './problem.ts';
import type { Rows } from './read-table.ts';
import { TABLES, type TableName } from './tables.ts';

export function checkEachRow(rows: Rows, report: Report): void {
  for (const row of rows.results) checkResult(row, report);
  for (const row of rows.charges) checkCharge(row, report);
  for (const row of rows.payments) checkPayment(row, report);
  checkBank(rows, report);
  checkLots(rows, report);
}

function checkResult({ line, cells }: Rows['results'][number], report: Report): void {
  const { outcome, price, buyer_no, fate } = cells;
  const tell = (column: string, refusal: Refusal) => report({ file: 'results.csv', line, column }, refusal);
  if (outcome === undefined) return;
  const bought = outcome === 'sold' || outcome === 'unpaid';
  const clear = (what: string) =>
    refuse('malformed', `Clear this cell, or write sold: a lot that is ${outcome} has no ${what}.`);
  if (bought || outcome === 'bought_back') {
    if (price === null) tell('price', refuse('missing', 'Enter the hammer price, or write passed.'));
  } else if (price !== null && price !== undefined) tell('price', clear('price'));
  if (bought) {
    if (buyer_no === null) tell('buyer_no', refuse('missing', 'Enter the buyer number, or write passed.'));
  } else if (buyer_no !== null && buyer_no !== undefined) tell('buyer_no', clear('buyer'));
  if (outcome === 'unpaid') {
    const say = 'Say what became of the fur: seller where it went back, association where the association kept it.';
    if (fate === null) tell('fate', refuse('missing', say));
  } else if (fate !== null && fate !== undefined) {
    tell('fate', refuse('malformed', 'Clear this cell: only a lot that is unpaid has a fate.'));
  }
}

function checkCharge({ line, cells }: Rows['charges'][number], report: Report): void {
  const { kind, amount } = cells;
  if (kind === undefined || kind === 'adjustment' || amount === undefined || amount >= 0) return;
  const say = 'Enter the amount without a minus: only an adjustment can be in the seller\u2019s favor.';
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

function checkBank({ payments, deposits, arrivals }: Rows, report: Report): void {
  const tell = (file: string, line: number, column: string, say: string) =>
    report({ file, line, column }, refuse('malformed', say));
  for (const { line, cells } of payments) {
    const by = (direction: string) => cells.method === 'check' && cells.direction === direction;
    const { deposit, on_statement: marked } = cells;
    if (deposit != null && !by('in')) {
      tell('payments.csv', line, 'deposit', 'Clear this cell: only a check that was taken in is in a deposit.');
    }
    if (marked != null && !by('out')) {
      const say = 'Clear this cell: only a check that was written stands on a statement by itself.';
      tell('payments.csv', line, 'on_statement', say);
    }
  }
  const withChecks = new Set(payments.map(({ cells }) => cells.deposit));
  for (const { line, cells } of deposits) {
    const { deposit, day, cash, on_statement: marked } = cells;
    if (cash === ZERO && !withChecks.has(deposit)) {
      tell('deposits.csv', line, 'cash', 'Enter the cash, or name this deposit in payments.csv: nothing is in it.');
    }
    if (marked != null && day !== undefined && marked < day) {
      tell('deposits.csv', line, 'on_statement', 'Enter the day of the deposit or a later one.');
    }
  }
  for (const { line, cells } of arrivals) {
    const { amount, fee } = cells;
    if (amount === undefined || fee === undefined || fee < amount) continue;
    tell('arrivals.csv', line, 'fee', 'Enter a fee below the amount: what is left arrived.');
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

interface Once {
  readonly table: TableName;
  readonly columns: readonly string[];
  readonly say: (what: string, line: number) => string;
}

const taken = (noun: string) => (what: string, line: number) =>
  `Give this ${noun} of its own: ${what} is already in line ${line}.`;

const ONCE: readonly Once[] = [
  { table: 'deposits', columns: ['deposit'], say: taken('deposit a number') },
  { table: 'goods', columns: ['goods'], say: taken('kind of goods a short name') },
  { table: 'people', columns: ['person_id'], say: taken('person an id') },
  {
    table: 'sellers',
    columns: ['seller_no', 'person_id'],
    say: (what, line) => `Name each partner once: seller number ${what} is already in line ${line}.`,
  },
  { table: 'buyers', columns: ['buyer_no'], say: taken('buyer a number') },
  { table: 'lots', columns: ['lot_no'], say: taken('lot a number') },
  {
    table: 'tags',
    columns: ['tag'],
    say: (what, line) => `Check the number on the piece: tag ${what} is already in line ${line}.`,
  },
  {
    table: 'results',
    columns: ['lot_no'],
    say: (what, line) => `Keep one result a lot: lot ${what} already has one in line ${line}.`,
  },
];

export function checkDuplicates(rows: Rows, report: Report): void {
  for (const once of ONCE) {
    const { file } = TABLES[once.table];
    for (const { line, what, first } of repeated(rows, once)) {
      const column = once.columns.at(-1) ?? '-';
      report({ file, line, column }, refuse('taken', once.say(what, first)));
    }
  }
}

/** What stands again, with its line and that on which it stood first. */
function repeated(rows: Rows, { table, columns }: Once) {
  const seen = new Map<string, number>();
  return rows[table].flatMap(({ line, cells }) => {
    const values = columns.map((column) => (cells as Readonly<Record<string, unknown>>)[column]);
    if (values.includes(undefined)) return [];
    const what = values.join(', ');
    const first = seen.get(what);
    if (first !== undefined) return [{ line, what, first }];
    seen.set(what, line);
    return [];
  });
}

/** The lines of `tags.csv` whose tag stood there before. */
export function doubledTagLines(rows: Rows): ReadonlySet<number> {
  const tags = ONCE.find(({ table }) => table === 'tags');
  return new Set(tags === undefined ? [] : repeated(rows, tags).map(({ line }) => line));
}
