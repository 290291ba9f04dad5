import { LocalTime } from '#app/ui/local-time.tsx';
import { Mark } from '#app/ui/mark.tsx';
import { showMoney } from '#lib/money.ts';
import type { LastRow } from './model.ts';
import { outcomeWords } from './outcome-words.ts';

interface LastTenProps {
  readonly rows: readonly LastRow[];
  readonly putRight: (row: LastRow) => void;
}

/** What was called last, newest first. */
export function LastTen({ rows, putRight }: LastTenProps) {
  return (
    <section aria-labelledby="last-ten">
      <h2 id="last-ten">The last ten</h2>
      {rows.length === 0 && <p className="soft">Nothing was called yet.</p>}
      <ol className="last-ten">
        {rows.map((row) => (
          <li key={row.lotId} data-lot={row.lotNo} data-state={row.state}>
            <strong className="figure">{row.lotNo}</strong>
            <span>
              {outcomeWords(row)}
              {row.corrected && <span className="soft small"> put right: {row.reason}</span>}
            </span>
            <span className="soft small last-ten-state">
              {row.state === 'waiting' ? <Mark tone="wait">waiting</Mark> : <Mark tone="done">saved</Mark>}{' '}
              {row.at && <LocalTime at={row.at} />} {row.worker}
            </span>
            <span className="money">{row.kind === 'sold' ? showMoney(row.amountCents) : ''}</span>
            <button type="button" className="small" onClick={() => putRight(row)}>
              Put right<span className="visually-hidden"> lot {row.lotNo}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
