import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { sameFrozen } from '#db/verify/tables.ts';
import { verifyBook } from '#db/verify/verify-book.ts';
import { fullBook, readFrom, withSql } from '#tests/support/book-file.ts';
import { bobcatTag, openHall } from '#tests/support/hall.ts';

const WHOLE = fullBook();

/** The book as an older program would have left it: other words on a frozen document, and a version before today's. */
function ofOldWords(table: string, change: (model: string) => string): string {
  const older = (model: string) =>
    change(model.replace('"version":2', '"version":1').replace(/"title":"[^"]*"/, '"title":"As it was called then"'));
  return withSql(WHOLE, (sqlite) => {
    const models = sqlite.prepare(`SELECT id, model FROM ${table}`).all() as { id: number; model: string }[];
    for (const { id, model } of models)
      sqlite.prepare(`UPDATE ${table} SET model = ? WHERE id = ?`).run(older(model), id);
  });
}

describe('a book whose frozen documents were worded by an older program', () => {
  it.each(['settlement', 'invoice'])('verifies: %s', (table) => {
    const old = ofOldWords(table, (model) => model);
    expect(readFrom(old, `SELECT model FROM ${table}`)).not.toEqual(readFrom(WHOLE, `SELECT model FROM ${table}`));
    expect(verifyBook(old).problems).toEqual([]);
  });

  it.each([
    ['settlement', 'a cent of the net', /"netCents":(-?\d+)/],
    ['settlement', 'a cent of a lot', /"amount":\{"cents":(\d+)/],
    ['invoice', 'a cent of the total', /"totalCents":(\d+)/],
  ])('%s: %s more is found, and the line that issued it is named', (table, _, figure) => {
    const more = (model: string) =>
      model.replace(figure, (all, cents: string) => all.replace(cents, String(BigInt(cents) + 1n)));
    const report = verifyBook(ofOldWords(table, more));
    const [row] = readFrom<{ line: number }>(WHOLE, `SELECT line FROM ${table}`);
    expect(report).toMatchObject({ ok: false, firstBadLine: row?.line });
    expect(report.replay.difference).toMatchObject({ kind: 'table', table, column: 'model' });
  });

  it.each([
    ['an amount in its words', /(\d)\.(\d\d)"/, '$1.99"'],
    ['the head of the log on it', /"hash":"[0-9a-f]{64}"/, `"hash":"${'0'.repeat(64)}"`],
  ])('%s cannot be another', (_, what, other) => {
    expect(verifyBook(ofOldWords('settlement', (model) => model.replace(what, other))).ok).toBe(false);
  });

  it('of the same version, not a letter may be another, and none of a later version is known', () => {
    const now = '{"title":"Settlement","totals":{"netCents":100},"version":1}';
    expect(sameFrozen(now, now)).toBe(true);
    expect(sameFrozen(now.replace('Settlement', 'settlement'), now)).toBe(false);
    expect(sameFrozen(now.replace('"version":1', '"version":2'), now)).toBe(false);
    expect(sameFrozen(now.replace(',"version":1', ''), now)).toBe(true);
    expect(sameFrozen('not JSON', now)).toBe(false);
    expect(sameFrozen('{"version":0,"totals":{"netCents":100},"more":1}', now)).toBe(false);
  });
});

/**
 * The words of each version, sealed. Where this fails, a printed paper is worded anew: give its model the next version,
 * and put the new hash beside the old one, or older books would be told that their papers were forged.
 */
const WORDS: Readonly<Record<string, string>> = {
  'invoice 1': '0623093157ab85f3',
  'invoice 2': 'c9e442e681d911ad',
  'settlement-sheet 1': 'e6644e541ffe93eb',
  'settlement-sheet 2': 'd4aff5b3625057e0',
};

describe('the words of a frozen document', () => {
  it('are those of its version', () => {
    const { book, saleId, must } = openHall();
    must('association.set', { name: 'Lantern Ridge Fur Harvesters', city: 'Harrow' });
    must('lot.add', { saleId, sellerNo: 1, goods: 'raccoon', count: '13', size: 'XL', minimum: '2.00' });
    must('lot.add', { saleId, sellerNo: 1, goods: 'bobcat', count: '2', tags: [bobcatTag(1), bobcatTag(2)] });
    must('lot.add', { saleId, sellerNo: 1, goods: 'castor', weight: '7.35', minimum: '2.00' });
    must('outcome.record', { saleId, lotNo: '1', kind: 'sold', price: '7.25', buyerNo: 10 });
    must('outcome.record', { saleId, lotNo: '2', kind: 'sold', price: '300.00', buyerNo: 10 });
    must('outcome.record', { saleId, lotNo: '3', kind: 'passed' });
    must('charge.add', { saleId, sellerNo: 1, kind: 'dues', amount: '25.00', how: 'deducted' });
    must('sale.stage', { saleId, stage: 'settling', reason: '' });
    must('settlement.issue', { saleId, sellerNo: 1 }, 'payout');
    must('invoice.issue', { saleId, buyerNo: 10 });
    const words = Object.fromEntries(
      ['settlement', 'invoice'].map((table) => {
        const model = book.sqlite.prepare(`SELECT model FROM ${table}`).pluck().get() as string;
        const { paper = table, version = 0 } = JSON.parse(model) as { paper?: string; version?: number };
        // What the head of the log is depends on every entry that this file gave before, and says nothing of the words;
        // on paper it is spelt in groups of eight.
        const sealed = model
          .replace(/(?<![0-9a-f])([0-9a-f]{64}|[0-9a-f]{8})(?![0-9a-f])/g, '')
          .replace(/"seq":\d+/g, '');
        return [`${paper} ${version}`, createHash('sha256').update(sealed).digest('hex').slice(0, 16)];
      }),
    );
    expect(WORDS).toMatchObject(words);
  });
});
