'use client';

import { AskedFirst } from '#app/(stations)/use-payment.tsx';
import { CheckField, TextField } from '#app/ui/field.tsx';
import { Act, Form, SubmitActs, useTexts } from '#app/ui/form.tsx';
import { unsayAll, useGive, useSaid } from '#app/ui/use-give.ts';
import type { BankView, StatementLine } from '#db/bank/bank-view.ts';
import { shortDate } from '#lib/date/date.ts';
import { showMoney, sumOf } from '#lib/money/money.ts';
import { countWords } from '#lib/result/text.ts';
import { useTicks } from './use-ticks.ts';

interface MarkProps extends Partial<Pick<BankView, 'checksOut' | 'inTransit' | 'returned' | 'cleared'>> {
  readonly command: 'bank.clear' | 'bank.unclear';
  readonly day: string;
}

/** Ticks what stands on the statement of a day, or what does not after all. */
export function MarkForm({ command, day, checksOut = [], inTransit = [], returned = [], cleared = [] }: MarkProps) {
  const { give, busy, elsewhere, errorOf } = useGive('payout');
  const { texts, field } = useTexts({ day }, errorOf, unsayAll);
  const { ticked, tick } = useTicks([]);
  const clears = command === 'bank.clear';
  // As they were when it was asked.
  const [asked, setAsked] = useSaid<readonly StatementLine[]>();
  const upTo = [...checksOut, ...inTransit, ...returned].filter((line) => line.day <= texts.day);
  const askAll = () => {
    unsayAll();
    setAsked(upTo);
  };
  const clearAll = (lines: readonly StatementLine[]) =>
    give('bank.clear', { entryIds: lines.map(({ entryId }) => entryId), day: texts.day }, 'Marks of the statement');
  const send = () => {
    const entryIds = [...ticked];
    return clears
      ? give('bank.clear', { entryIds, day: texts.day }, 'Marks of the statement')
      : give('bank.unclear', { entryIds }, 'Marks of the statement');
  };
  if (checksOut.length + inTransit.length + returned.length + cleared.length === 0)
    return <p>Nothing is outstanding.</p>;
  const parts: readonly (readonly [string, readonly StatementLine[]])[] = [
    ['Not paid by the bank yet', checksOut],
    ['Deposits in transit', inTransit],
    ['Checks that came back', returned],
    ['Marked', cleared],
  ];
  return (
    <Form onEntered={send} busy={busy} wrong={elsewhere} aria-label={clears ? 'Outstanding' : 'On the statement'}>
      {parts
        .filter(([, lines]) => lines.length > 0)
        .map(([title, lines]) => (
          <fieldset key={title}>
            <legend>{title}</legend>
            {folds(lines).map((fold, at) => {
              const fields = fold.map((line) => (
                <CheckField
                  key={line.entryId}
                  label={lineWords(line)}
                  checked={ticked.has(line.entryId)}
                  onTick={(on) => tick(line.entryId, on)}
                />
              ));
              const [first, last] = [fold[0], fold.at(-1)];
              return at === 0 ? (
                fields
              ) : (
                <details key={first?.entryId}>
                  <summary>
                    {fold.length} more, {first && shortDate(first.day)} to {last && shortDate(last.day)}
                  </summary>
                  {fields}
                </details>
              );
            })}
          </fieldset>
        ))}
      {clears && (
        <div className="fields">
          <TextField label="Day on the statement" {...field('day')} />
        </div>
      )}
      {asked ? (
        <AskedFirst
          yes={`Yes, mark ${countWords(asked.length, 'line')}`}
          busy={busy}
          act={() => void clearAll(asked)}
          leave={() => setAsked(undefined)}
        >
          Mark all {countWords(asked.length, 'line')} up to {texts.day} as on the statement, ticked or not,{' '}
          {showMoney(sumOf(asked, 'amountCents'))} in all?
        </AskedFirst>
      ) : (
        <SubmitActs label={clears ? 'On the statement' : 'Not on the statement'} disabled={busy || ticked.size === 0}>
          {clears && <Act words="Mark all up to this day" act={askAll} disabled={busy || upTo.length === 0} />}
        </SubmitActs>
      )}
    </Form>
  );
}

const SHOWN = 40;

/** Of many lines the last are shown, which are the newest or, of marks, the first; the others are folded, so many at once. */
function folds(lines: readonly StatementLine[]): (readonly StatementLine[])[] {
  const rest = lines.slice(0, Math.max(0, lines.length - SHOWN));
  const parts = Array.from({ length: Math.ceil(rest.length / SHOWN) }, (_, at) =>
    rest.slice(Math.max(0, rest.length - (at + 1) * SHOWN), rest.length - at * SHOWN),
  );
  return [lines.slice(rest.length), ...parts];
}

function lineWords({ words, amount, age, stale, clearedOn }: StatementLine): string {
  const since =
    clearedOn === null ? `, ${stale ? `${age}: older than six months` : age}` : `, on it ${shortDate(clearedOn)}`;
  return `${amount}: ${words}${since}`;
}
