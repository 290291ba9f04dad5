/** Laws of the till, looked at in the tables themselves and not by the functions that are tried. */
import type { Book } from '#db/open.ts';
import { saleFacts } from '#db/queries/sale-facts.ts';
import type { InvoicePaper } from '#lib/buyer/model.ts';
import { buyerAccounts } from '#lib/buyer-account.ts';

export const TILL_LAWS: readonly (readonly [string, string])[] = [
  [
    'invoices are numbered 1, 2, 3 in each sale',
    'SELECT sale_id FROM invoice GROUP BY sale_id HAVING max(number) <> count(*) OR min(number) <> 1',
  ],
  [
    'a correcting invoice follows the newest of its buyer',
    `SELECT b.id FROM invoice a JOIN invoice b ON b.corrects_id = a.id WHERE a.buyer_id <> b.buyer_id OR a.number >= b.number`,
  ],
  [
    'a buyer has one invoice that corrects none',
    'SELECT buyer_id FROM invoice WHERE corrects_id IS NULL GROUP BY buyer_id HAVING count(*) > 1',
  ],
  [
    'what a payment is voided by is of the same money',
    `SELECT b.id FROM payment a JOIN payment b ON b.voids_id = a.id
     WHERE a.amount_cents <> b.amount_cents OR a.method <> b.method OR a.buyer_id IS NOT b.buyer_id OR a.voids_id IS NOT NULL`,
  ],
  [
    'a lot goes out and comes back by turns',
    'SELECT b.id FROM handover a JOIN handover b ON b.replaces_id = a.id WHERE a.lot_id <> b.lot_id OR a.kind = b.kind',
  ],
  [
    'a lot that is out went to a buyer of its sale',
    `SELECT handover.id FROM handover JOIN lot ON lot.id = lot_id JOIN buyer ON buyer.id = buyer_id
     WHERE lot.sale_id <> buyer.sale_id`,
  ],
  [
    'the drawer is opened and closed by turns',
    `SELECT kind FROM (SELECT kind, lag(kind) OVER (PARTITION BY sale_id ORDER BY id) AS before FROM drawer_entry
       WHERE kind IN ('opened', 'closed') AND voids_id IS NULL
         AND id NOT IN (SELECT voids_id FROM drawer_entry WHERE voids_id IS NOT NULL))
     WHERE kind = before OR (before IS NULL AND kind = 'closed')`,
  ],
  [
    'only what a registered, cleared buyer was cleared by is named',
    "SELECT id FROM buyer WHERE cleared = (cleared_by = '')",
  ],
];

const PAID = `SELECT coalesce(sum(CASE WHEN (direction = 'in') = (voids_id IS NULL) THEN amount_cents ELSE -amount_cents END), 0)
  FROM payment JOIN buyer ON buyer.id = buyer_id WHERE buyer.sale_id = ? AND buyer_no = ?`;

/** What does not add up in the accounts of the buyers of a sale, one sentence each. */
export function accountProblems(book: Book, saleId: number): string[] {
  const paid = book.sqlite.prepare(PAID).pluck();
  return buyerAccounts(saleFacts(book, saleId)).flatMap(({ buyerNo, invoice, paidCents, owingCents }) => {
    const { amountCents, premiumCents, taxCents, totalCents, lines } = invoice;
    const lots = lines.reduce((sum, line) => sum + line.amountCents, 0);
    return [
      ...(paid.get(saleId, buyerNo) === paidCents ? [] : [`buyer ${buyerNo}: the payments are not what was paid`]),
      ...(paidCents + owingCents === totalCents ? [] : [`buyer ${buyerNo}: paid and owing are not the total`]),
      ...(amountCents + premiumCents + taxCents === totalCents
        ? []
        : [`buyer ${buyerNo}: the parts are not the total`]),
      ...(lots === amountCents ? [] : [`buyer ${buyerNo}: the lots are not their sum`]),
    ];
  });
}

interface Row {
  readonly id: number;
  readonly model: string;
  readonly corrects_id: number | null;
}

/** What an issued invoice says of itself that does not add up, one sentence each. */
export function invoiceProblems(book: Book): string[] {
  const rows = book.sqlite.prepare('SELECT id, model, corrects_id FROM invoice').all() as Row[];
  const models = new Map(rows.map(({ id, model }) => [id, JSON.parse(model) as InvoicePaper]));
  return rows.flatMap(({ id, corrects_id: correctsId }) => {
    const paper = models.get(id);
    const before = correctsId === null ? null : models.get(correctsId);
    return paper ? problemsOf(paper, before ?? null).map((problem) => `invoice ${paper.number}: ${problem}`) : [];
  });
}

function problemsOf(paper: InvoicePaper, before: InvoicePaper | null): string[] {
  const { steps, totals, payments, lots, corrects } = paper;
  const sum = (amounts: readonly number[]) => amounts.reduce((so, amount) => so + amount, 0);
  const effects = steps.slice(0, -1).map(({ effectCents }) => effectCents);
  const said = [
    ...(sum(effects) === totals.totalCents ? [] : ['the steps are not the total']),
    ...(sum(lots.map(({ amount }) => amount.cents)) === totals.amountCents ? [] : ['the lots are not their sum']),
    ...(sum(payments.map(({ amount }) => amount.cents)) === totals.paidCents ? [] : ['the payments are not their sum']),
    ...(totals.totalCents - totals.paidCents === totals.owingCents ? [] : ['what is owing is not what is left']),
  ];
  if (before === null || corrects === null) return before === corrects ? said : [...said, 'it corrects and does not'];
  const [, , , total] = corrects.sums;
  const right =
    total?.difference.cents === totals.totalCents - before.totals.totalCents &&
    sum(corrects.sums.slice(0, 3).map(({ difference }) => difference.cents)) === total.difference.cents &&
    sum(corrects.lots.map(({ difference }) => difference.cents)) === totals.amountCents - before.totals.amountCents;
  return right ? said : [...said, 'the differences are not what changed'];
}
