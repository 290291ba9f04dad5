/** What the association keeps, this sale beside the one before, as a finished list. */
import { KEPT_WORDS, type Kept, keptByGoods, keptOf } from '#lib/closing/kept.ts';
import type { SaleFacts } from '#lib/facts.ts';
import { showMoney } from '#lib/money.ts';
import type { PaperGround } from '#lib/paper/facts.ts';
import { cell, type ListPaper, type ListTable, listPaper, NO_ADVICE, strongCell } from '#lib/paper/list.ts';
import { clean, dateInWords } from '#lib/sheet/spell.ts';

const ROWS = [
  ...KEPT_WORDS,
  ['keptCents', 'Kept in all'],
  ['taxCents', 'Sales tax to remit, not ours'],
  ['advancesCents', 'Advances got back, not earned'],
] as const satisfies readonly (readonly [keyof Kept, string])[];

/** `before` is the sale before this one, or null where the book has none. */
export function keptPaper(ground: PaperGround, facts: SaleFacts, before: SaleFacts | null): ListPaper {
  return listPaper(ground, {
    title: 'What the association keeps',
    tables: [sumsTable(facts, before), goodsTable(facts)],
    caution: NO_ADVICE,
  });
}

function sumsTable(facts: SaleFacts, before: SaleFacts | null): ListTable {
  const [now, then] = [keptOf(facts), before && keptOf(before)];
  return {
    title: 'Where it comes from',
    columns: [
      { kind: 'words', words: '' },
      { kind: 'money', words: 'This sale' },
      { kind: 'money', words: before ? dateInWords(before.sale.heldOn) : 'None before' },
    ],
    rows: ROWS.map(([name, words]) => {
      const made = name === 'keptCents' ? strongCell : cell;
      return [made(words), made(showMoney(now[name])), made(then ? showMoney(then[name]) : '')];
    }),
    none: '',
    sum: '',
  };
}

function goodsTable(facts: SaleFacts): ListTable {
  const names = new Map(facts.goods.map(({ goods, name }) => [goods, name]));
  return {
    title: 'By goods',
    columns: [
      { kind: 'words', words: 'Goods' },
      ...['Hammer', 'Commission', 'Fees', 'Premium', 'Donated', 'Kept'].map((words) => ({
        kind: 'money' as const,
        words,
      })),
    ],
    rows: keptByGoods(facts).map((one) => [
      cell(clean(names.get(one.goods) ?? one.goods), `${one.lotsSold} sold`),
      ...[one.hammerCents, one.commissionCents, one.feesCents, one.premiumCents, one.donatedCents, one.keptCents].map(
        (amount) => cell(showMoney(amount)),
      ),
    ]),
    none: 'Nothing was called yet.',
    sum: '',
  };
}
