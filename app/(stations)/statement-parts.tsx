import type { ReactNode } from 'react';
import type { TakingSums } from '#db/payment/takings.ts';
import { showMoney } from '#lib/money/money.ts';

/** A row of a reckoning: what it is, and how much. */
export function MoneyRow({ words, children }: { readonly words: string; readonly children: ReactNode }) {
  return (
    <tr>
      <th scope="row">{words}</th>
      <td className="money">{children}</td>
    </tr>
  );
}

/** What came in by kind, and in all. */
export function TakingSumsTable({ sums: { byKind, totalCents } }: { readonly sums: TakingSums }) {
  return (
    <table className="reckoning">
      <caption>By kind, over the whole sale</caption>
      <tbody>
        {byKind.map(({ words, amount }) => (
          <MoneyRow key={words} words={words}>
            {amount}
          </MoneyRow>
        ))}
        <MoneyRow words="In all">
          <strong>{showMoney(totalCents)}</strong>
        </MoneyRow>
      </tbody>
    </table>
  );
}

interface Step {
  readonly kind: keyof typeof SIGNS;
  readonly label: string;
  readonly words: string;
}

const SIGNS = { start: '', less: 'less ', plus: 'plus ', sum: '' } as const;

/** The rows of an invoice or a settlement sheet that lead from the first sum to the last. */
export function StepRows({ steps }: { readonly steps: readonly Step[] }) {
  return steps.map(({ kind, label, words }, at) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: two steps can read the same, and they never move.
    <MoneyRow key={at} words={`${SIGNS[kind]}${label}`}>
      {kind === 'sum' ? <strong>{words}</strong> : words}
    </MoneyRow>
  ));
}

interface MoneyCellsProps {
  /** The head of each column, what stands in it, and how it came about. */
  readonly cells: readonly (readonly [head: string, words: string, how?: string])[];
}

/** The amounts of a row; on a phone each has its head beside it, and the last is the sum of the row. */
export function MoneyCells({ cells }: MoneyCellsProps) {
  return cells.map(([head, words, how = ''], at) => (
    <td key={head} className={at === cells.length - 1 ? 'money slip-sum' : 'money'} data-head={head}>
      {words}
      {how && <div className="small soft">{how}</div>}
    </td>
  ));
}
