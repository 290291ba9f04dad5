/** Laws of payout, looked at in the tables themselves and not by the functions that are tried. */
import type { Book } from '#db/open.ts';
import { closingFacts } from '#db/queries/closing-facts.ts';
import { closingLines } from '#lib/closing/lines.ts';
import type { CorrectionSheet } from '#lib/payout/correction.ts';
import type { SettlementSheet } from '#lib/sheet/model.ts';

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
    'a check in the place of another is of its amount, and that one is void',
    `SELECT b.id FROM seller_check a JOIN seller_check b ON b.replaces_id = a.id
     JOIN payment pa ON pa.id = a.payment_id JOIN payment pb ON pb.id = b.payment_id
     WHERE pa.amount_cents <> pb.amount_cents OR pa.person_id <> pb.person_id
       OR NOT EXISTS (SELECT 1 FROM payment v WHERE v.voids_id = pa.id)`,
  ],
];

/** Every difference of the balance is explained to the cent by the things it names. */
export function balanceProblems(book: Book, saleId: number): string[] {
  return closingLines(closingFacts(book, saleId)).flatMap(({ name, left, right, parts, difference, why }) => {
    const sum = (amounts: readonly { readonly amount: number }[]) => amounts.reduce((so, one) => so + one.amount, 0);
    return [
      ...(sum(parts) === right ? [] : [`${name}: the parts are not the side`]),
      ...(left - right === difference ? [] : [`${name}: the sides do not differ by the difference`]),
      ...(sum(why) === difference ? [] : [`${name}: ${difference} off, of which ${sum(why)} is explained`]),
    ];
  });
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
