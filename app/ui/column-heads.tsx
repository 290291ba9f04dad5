interface ColumnHeadsProps {
  readonly words: readonly string[];
  /** The columns behind them whose figures stand to the right. */
  readonly money?: readonly string[];
}

/** The head of a table: columns of words, then columns of money. */
export function ColumnHeads({ words, money = [] }: ColumnHeadsProps) {
  return (
    <thead>
      <tr>
        {words.map((head) => (
          <th key={head} scope="col">
            {head}
          </th>
        ))}
        {money.map((head) => (
          <th key={head} scope="col" className="money">
            {head}
          </th>
        ))}
      </tr>
    </thead>
  );
}
