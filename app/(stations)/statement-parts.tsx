interface StepRowsProps {
  readonly steps: readonly {
    readonly kind: keyof typeof SIGNS;
    readonly label: string;
    readonly words: string;
  }[];
}

const SIGNS = { start: '', less: 'less ', plus: 'plus ', sum: '' } as const;

/** The rows of an invoice or a settlement sheet that lead from the first sum to the last. */
export function StepRows({ steps }: StepRowsProps) {
  return steps.map(({ kind, label, words }, at) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: two steps can read the same, and they never move.
    <tr key={at}>
      <th scope="row">
        {SIGNS[kind]}
        {label}
      </th>
      <td className="money">{kind === 'sum' ? <strong>{words}</strong> : words}</td>
    </tr>
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
