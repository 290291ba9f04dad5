import { journalEntries } from '#db/account/queries.ts';
import { bankEntries } from '#db/bank/queries.ts';
import { saleById } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { closingFacts, closingsOf, drawerOverShort } from '#db/report/closing.ts';
import { saleFacts } from '#db/sale/facts.ts';
import { payoutSellers } from '#db/settlement/payout.ts';
import { reconcile } from '#lib/bank/reconcile.ts';
import { buyerAccounts } from '#lib/buyer/buyer.ts';
import type { InvoicePaper } from '#lib/invoice/model.ts';
import { sumCents } from '#lib/money/money.ts';
import type { ClosingLine } from '#lib/report/closing-line.ts';
import { closingLines } from '#lib/report/closing-lines.ts';
import { accountBalances } from '#lib/report/journal.ts';
import { type Revenue, revenueOf } from '#lib/report/revenue.ts';
import type { CorrectionSheet } from '#lib/settlement/correction.ts';
import type { SettlementSheet } from '#lib/settlement/model.ts';

/** Laws of payout, looked at in the tables themselves and not by the functions that are tried. */

export const PAYOUT_LAWS: readonly (readonly [string, string])[] = [
  [
    'sheets are numbered 1, 2, 3 in each sale',
    'SELECT sale_id FROM settlement GROUP BY sale_id HAVING max(number) <> count(*) OR min(number) <> 1',
  ],
  [
    'a correction sheet follows the newest of its seller',
    `SELECT b.id FROM settlement a JOIN settlement b ON b.corrects_id = a.id
     WHERE a.seller_id <> b.seller_id OR a.number >= b.number`,
  ],
  [
    'a seller has one sheet that corrects none',
    'SELECT seller_id FROM settlement WHERE corrects_id IS NULL GROUP BY seller_id HAVING count(*) > 1',
  ],
  [
    'a check is a payment by check to a partner of the seller whose sheet it pays',
    `SELECT c.id FROM seller_check c JOIN payment p ON p.id = c.payment_id JOIN settlement s ON s.id = c.settlement_id
     WHERE p.direction <> 'out' OR p.method <> 'check' OR p.seller_id <> s.seller_id OR p.sale_id <> c.sale_id
       OR p.voids_id IS NOT NULL
       OR NOT EXISTS (SELECT 1 FROM partner WHERE partner.seller_id = p.seller_id AND partner.person_id = p.person_id)`,
  ],
  [
    'no check is in two deposits that stand',
    `SELECT payment_id FROM deposit_item JOIN live_deposit ON live_deposit.id = deposit_id
     GROUP BY payment_id HAVING count(*) > 1`,
  ],
  [
    'a deposit holds checks of its own sale that were taken in',
    `SELECT i.id FROM deposit_item i JOIN deposit d ON d.id = i.deposit_id JOIN payment p ON p.id = i.payment_id
     WHERE p.sale_id <> d.sale_id OR p.direction <> 'in' OR p.method <> 'check' OR p.voids_id IS NOT NULL`,
  ],
  ['nothing is cleared twice', 'SELECT entry_id FROM live_bank_mark GROUP BY entry_id HAVING count(*) > 1'],
  [
    'what is cleared was not taken back on the account',
    `SELECT m.id FROM live_bank_mark m JOIN journal_entry b ON b.reverses_id = m.entry_id
     JOIN posting p ON p.entry_id = b.id AND p.account = 'Assets:Bank'`,
  ],
  [
    'a check in the place of another is of its amount, and that one is void',
    `SELECT b.id FROM seller_check a JOIN seller_check b ON b.replaces_id = a.id
     JOIN payment pa ON pa.id = a.payment_id JOIN payment pb ON pb.id = b.payment_id
     WHERE pa.amount_cents <> pb.amount_cents OR pa.person_id <> pb.person_id
       OR NOT EXISTS (SELECT 1 FROM payment v WHERE v.voids_id = pa.id)`,
  ],
  [
    'what a charge is taken back by is of the same money',
    `SELECT b.id FROM charge a JOIN charge b ON b.voids_id = a.id
     WHERE a.amount_cents <> b.amount_cents OR a.how <> b.how OR a.seller_id <> b.seller_id OR a.voids_id IS NOT NULL`,
  ],
  [
    'no dues that stand rest on a charge that was taken back',
    `SELECT d.id FROM dues d JOIN charge v ON v.voids_id = d.charge_id
     WHERE d.voids_id IS NULL AND d.id NOT IN (SELECT voids_id FROM dues WHERE voids_id IS NOT NULL)`,
  ],
];

const sum = (amounts: readonly { readonly amount: number }[]) => amounts.reduce((so, one) => so + one.amount, 0);

/** Every difference of the balance is explained to the cent by the things it names, and its money is that of the journal. */
export function balanceProblems(book: Book, saleId: number): string[] {
  const lines = closingLines(closingFacts(book, saleId));
  const apart = lines.flatMap(({ name, left, right, leftParts, parts, difference, why }) => {
    return [
      ...(leftParts.length === 0 || sum(leftParts) === left ? [] : [`${name}: the parts are not the first side`]),
      ...(sum(parts) === right ? [] : [`${name}: the parts are not the side`]),
      ...(left - right === difference ? [] : [`${name}: the sides do not differ by the difference`]),
      ...(sum(why) === difference ? [] : [`${name}: ${difference} off, of which ${sum(why)} is explained`]),
    ];
  });
  return [...apart, ...ledgerProblems(book, saleId, lines)];
}

/** The accounts in which money lies, and those of what the association keeps, as the journal has them. */
const MONEY = /^Assets:(Cash|Checks|Bank|Cards|Other payments)(:|$)/;
const KEPT: readonly (readonly [keyof Revenue, RegExp])[] = [
  ['commissionCents', /^Income:Commission$/],
  ['lotFeesCents', /^Income:Lot fees$/],
  ['noSaleFeesCents', /^Income:No-sale fees$/],
  ['sellerNumbersCents', /^Income:Seller numbers$/],
  ['premiumCents', /^Income:Buyer's premium$/],
  ['donatedCents', /^Income:Donated lots$/],
  ['duesCents', /^Income:Dues$/],
  ['adjustmentsCents', /^Income:Adjustments$/],
  ['raffleCents', /^Income:Raffle$/],
  ['doorCents', /^Income:Door$/],
  ['donationsCents', /^Income:Donations$/],
  ['foodCents', /^Income:Food$/],
  ['otherTakingsCents', /^Income:Other takings$/],
  ['checkFeesCents', /^Income:Returned-check fees$/],
  ['overShortCents', /^Income:Cash over and short$/],
  ['cardFeesCents', /^Expenses:Card fees$/],
  ['badDebtsCents', /^Expenses:Debts written off$/],
  ['revenueCents', /^(Income|Expenses):/],
  ['taxCents', /^Liabilities:Sales tax$/],
];

/** What is there is what the accounts of the money come to; of a closed sale, all that it kept is an account of its own. */
function ledgerProblems(book: Book, saleId: number, lines: readonly ClosingLine[]): string[] {
  const balances = [...accountBalances(journalEntries(book, saleId))];
  const comesTo = (account: RegExp) =>
    balances.reduce((so, [name, amount]) => (account.test(name) ? so + amount : so), 0);
  const there = lines.find(({ name }) => name === 'money')?.right;
  const problems = there === comesTo(MONEY) ? [] : [`money: ${there} is not the ${comesTo(MONEY)} of the journal`];
  if (saleById(book, saleId)?.stage !== 'closed') return problems;
  const kept = revenueOf(saleFacts(book, saleId), drawerOverShort(book, saleId));
  const off = KEPT.filter(([name, account]) => kept[name] + comesTo(account) !== 0);
  return [...problems, ...off.map(([name]) => `${name}: ${kept[name]} is not that of the journal`)];
}

/** What of the newest closing report does not add up as it is printed, one sentence each. */
export function closingReportProblems(book: Book, saleId: number): string[] {
  const report = closingsOf(book, saleId).findLast((one) => one.report !== null)?.report;
  const rows = (title: string) =>
    (report?.tables.find((table) => table.title === title)?.rows ?? []).map((row) => row.map(({ words }) => words));
  const figure = (words = '') => Math.round(Number(words.replaceAll(',', '').replace(/ (lots?|pieces?)$/, '')) * 100);
  let side = 0;
  const sides = rows('What the sides are made of').flatMap(([head, label, words]) => {
    // What a side is called stands beside its first part.
    if (head !== '') side = 0;
    if (label !== 'Together') side += figure(words);
    else if (side !== figure(words)) return [`the parts are ${side}, and not the ${words} under them`];
    return [];
  });
  const kept = rows('What the association keeps');
  const total = kept.findIndex(([label]) => label === 'Kept in all');
  const all = kept.slice(0, total).reduce((so, [, words]) => so + figure(words), 0);
  return [...sides, ...(report && all !== figure(kept[total]?.[1]) ? ['what was kept is not its sum'] : [])];
}

/** What a correction sheet says of itself that does not add up, one sentence each. */
export function correctionProblems(book: Book): string[] {
  const rows = book.sqlite.prepare('SELECT id, model, corrects_id FROM settlement').all() as {
    readonly id: number;
    readonly model: string;
    readonly corrects_id: number | null;
  }[];
  const papers = new Map(rows.map(({ id, model }) => [id, JSON.parse(model) as SettlementSheet | CorrectionSheet]));
  return rows.flatMap(({ id, corrects_id: correctsId }) => {
    const paper = papers.get(id);
    const before = correctsId === null ? undefined : papers.get(correctsId);
    if (paper?.paper !== 'correction-sheet') return before ? [`sheet ${id} corrects and does not say so`] : [];
    if (!before) return [`sheet ${id} says it corrects and does not`];
    const was = before.paper === 'correction-sheet' ? before.now : before;
    const right =
      paper.now.totals.netCents - was.totals.netCents === paper.differenceCents && paper.corrects === was.number;
    return right ? [] : [`sheet ${id}: the difference is not what changed`];
  });
}

/** Laws of the till, looked at in the tables themselves and not by the functions that are tried. */

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
    'what a taking is voided by is of the same money',
    `SELECT b.id FROM taking a JOIN taking b ON b.voids_id = a.id
     WHERE a.amount_cents <> b.amount_cents OR a.method <> b.method OR a.kind <> b.kind OR a.sale_id <> b.sale_id
       OR a.voids_id IS NOT NULL`,
  ],
  [
    'no walk-in is cleared without a worker who said so, and each has a number of its own',
    `SELECT buyer.id FROM buyer JOIN person ON person.id = person_id WHERE person.ref = 'WALK-IN'
     GROUP BY buyer.sale_id, buyer_no HAVING count(*) > 1 OR max(cleared = (cleared_by = ''))`,
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
    const { amountCents, premiumCents, taxCents, totalCents, rows } = invoice;
    const lots = rows.reduce((sum, line) => sum + line.amountCents, 0);
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

/** What each buyer and each partner of a seller number of a sale is owed; below nothing, what they owe. */
export function owedTo(book: Book, saleId: number): Map<string, number> {
  const sale = saleById(book, saleId);
  const buyers = buyerAccounts(saleFacts(book, saleId)).map(({ buyerNo, owingCents }) => [
    `buyer ${buyerNo}`,
    -owingCents,
  ]);
  const sellers = (sale ? payoutSellers(book, sale) : []).flatMap(({ sellerNo, accounts }) =>
    accounts.map(({ personId, owingCents }) => [`${personId} of seller ${sellerNo}`, owingCents]),
  );
  return new Map([...buyers, ...sellers] as [string, number][]);
}

/** Whom money that went out left with more than was owed, beside those who had too much before. */
export function paidTooMuch(before: ReadonlyMap<string, number>, after: ReadonlyMap<string, number>): string[] {
  return [...after].flatMap(([who, owed]) =>
    owed < Math.min(0, before.get(who) ?? 0) ? [`${who} was paid too much`] : [],
  );
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

/** What does not add up in the bank account over all sales at the end of a day, one sentence each. */
export function bankProblems(book: Book, upTo: string): string[] {
  const posted = book.sqlite
    .prepare(
      `SELECT coalesce(sum(amount_cents), 0) FROM posting JOIN journal_entry ON journal_entry.id = posting.entry_id
       LEFT JOIN live_bank_mark AS mark ON mark.entry_id = journal_entry.id
       WHERE account = 'Assets:Bank' AND min(journal_entry.day, coalesce(mark.day, journal_entry.day)) <= ?`,
    )
    .pluck()
    .get(upTo);
  const { bookCents, clearedCents, checksOut, inTransit, returned, statementCents } = reconcile(
    bankEntries(book),
    upTo,
  );
  const outstanding = sumCents([...checksOut, ...inTransit, ...returned].map(({ amountCents }) => amountCents));
  return [
    ...(posted === bookCents ? [] : ['the bank account is not what was posted']),
    ...(clearedCents + outstanding === bookCents ? [] : ['cleared and outstanding are not the bank account']),
    ...(statementCents === clearedCents ? [] : ['the statement should say what is cleared']),
  ];
}
