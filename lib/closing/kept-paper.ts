/** What the association keeps, this sale beside the one before, as a finished list. */
import { KEPT_WORDS, type Kept, type KeptOfGoods } from '#lib/closing/kept.ts';
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

/** What a sale left with the association, and by which goods. */
export interface KeptOfSale {
  /** The name of each kind of goods by its short name. */
  readonly goodsNames: ReadonlyMap<string, string>;
  readonly kept: Kept;
  readonly byGoods: readonly KeptOfGoods[];
}

/** The sale before this one. */
interface Before {
  /** ISO 8601 date. */
  readonly heldOn: string;
  readonly kept: Kept;
}

/** `before` is null where the book has no sale before this one. */
export function keptPaper(ground: PaperGround, now: KeptOfSale, before: Before | null): ListPaper {
  return listPaper(ground, {
    title: 'What the association keeps',
    tables: [sumsTable(now.kept, before), goodsTable(now)],
    caution: NO_ADVICE,
  });
}

function sumsTable(now: Kept, before: Before | null): ListTable {
  return {
    title: 'Where it comes from',
    columns: [
      { kind: 'words', words: '' },
      { kind: 'money', words: 'This sale' },
      { kind: 'money', words: before ? dateInWords(before.heldOn) : 'None before' },
    ],
    rows: ROWS.map(([name, words]) => {
      const made = name === 'keptCents' ? strongCell : cell;
      return [made(words), made(showMoney(now[name])), made(before ? showMoney(before.kept[name]) : '')];
    }),
    none: '',
    sum: '',
  };
}

function goodsTable({ goodsNames, byGoods }: KeptOfSale): ListTable {
  return {
    title: 'By goods',
    columns: [
      { kind: 'words', words: 'Goods' },
      ...['Hammer', 'Commission', 'Fees', 'Premium', 'Donated', 'Kept'].map((words) => ({
        kind: 'money' as const,
        words,
      })),
    ],
    rows: byGoods.map((one) => [
      cell(clean(goodsNames.get(one.goods) ?? one.goods), `${one.lotsSold} sold`),
      ...[one.hammerCents, one.commissionCents, one.feesCents, one.premiumCents, one.donatedCents, one.keptCents].map(
        (amount) => cell(showMoney(amount)),
      ),
    ]),
    none: 'Nothing was called yet.',
    sum: '',
  };
}
