import type { Metadata } from 'next';
import { FoldedAsk } from '#app/(stations)/give-forms.tsx';
import { payoutPage } from '#app/(stations)/payout/payout-frame.tsx';
import { today } from '#app/request/page-context.ts';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { PrintLink } from '#app/ui/text.tsx';
import { type BankView, bankView } from '#db/bank/bank-view.ts';
import type { Deposit } from '#lib/bank/deposit.ts';
import { shortDate } from '#lib/date/date.ts';
import { showMoney } from '#lib/money/money.ts';
import { countWords } from '#lib/result/text.ts';
import { Arrivals, ArriveForm } from './arrive-form.tsx';
import { BounceForm, DepositForm } from './bank-forms.tsx';
import { MarkForm } from './mark-form.tsx';

export const metadata: Metadata = { title: 'Bank' };

export default payoutPage('/payout/bank', ({ book, sale, word }) => {
  const typed = { day: word('day') ?? '', statement: word('statement') ?? '', other: word('other') ?? '' };
  const view = bankView(book, sale, typed, today(book));
  return (
    <section className="sheet">
      <h1>Bank</h1>
      <section aria-label="To be banked">
        <h2>To be banked</h2>
        {view.waiting.length === 0 && view.cash === '' ? (
          <p>No check of this sale waits, and no cash lies outside the drawer.</p>
        ) : (
          // Made anew once something was banked or taken back, and not while the Till takes further money.
          <DepositForm key={view.deposits.map(standing).join('|')} saleId={sale.id} {...view} />
        )}
      </section>
      <Deposits saleId={sale.id} deposits={view.deposits} />
      {view.lying.length + view.arrivals.length > 0 && (
        <section aria-label="Card money">
          <h2>Card money and other money</h2>
          {view.lying.map((one) => (
            // Made anew once some of it arrived or was taken back.
            <ArriveForm key={`${one.method} ${one.amount}`} saleId={sale.id} {...one} />
          ))}
          <Arrivals arrivals={view.arrivals} />
        </section>
      )}
      <Statement saleId={sale.id} typed={typed} view={view} />
      {view.taken.length > 0 && <BounceForm checks={view.taken} />}
    </section>
  );
});

const standing = ({ depositId, voided }: Deposit) => `${depositId} ${voided ?? 'stands'}`;

function Deposits({ saleId, deposits }: { readonly saleId: number; readonly deposits: readonly Deposit[] }) {
  if (deposits.length === 0) return null;
  return (
    <section aria-label="Deposits">
      <h2>Deposits</h2>
      <ul className="partners">
        {deposits.map(({ depositId, day, checks, totalCents, voided }) => (
          <li key={depositId}>
            <strong>Deposit {depositId}</strong>, {shortDate(day)}: {showMoney(totalCents)} with{' '}
            {countWords(checks.length, 'check')}
            {voided !== null && `. Void: ${voided}`}
            <div className="acts">
              <PrintLink href={`/api/papers/payout/deposit-slip?sale=${saleId}&deposit=${depositId}`}>
                Print slip {depositId}
              </PrintLink>
            </div>
            {voided === null && (
              <FoldedAsk
                {...{ station: 'payout', command: 'deposit.void', input: { depositId } }}
                summary={`Void deposit ${depositId}`}
                entry={`Void deposit ${depositId}`}
                act="Void the deposit"
              />
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

interface StatementProps {
  readonly saleId: number;
  readonly typed: { readonly day: string; readonly statement: string; readonly other: string };
  readonly view: BankView;
}

/** The account of all sales beside the bank's statement. What is typed for it stands in the address and is not kept. */
function Statement({ saleId, typed, view }: StatementProps) {
  const { upTo, wrong, steps, difference, below, checksOut, inTransit, returned, cleared, clearedCount } = view;
  const paper = `bank-reconciliation?${new URLSearchParams({ sale: String(saleId), ...typed, day: upTo })}`;
  return (
    <section aria-label="The statement">
      <h2>The statement of the bank</h2>
      <p>The account is one for all sales of this book.</p>
      {wrong && <Notice kind="stop" title={wrong} />}
      <form method="get" action="/payout/bank">
        <input type="hidden" name="sale" value={saleId} />
        <div className="fields">
          <TextField label="Day of the statement" name="day" defaultValue={typed.day || upTo} />
          <TextField
            label="Balance on the statement"
            inputMode="decimal"
            name="statement"
            defaultValue={typed.statement}
          />
          <TextField
            label="Money in it that this book does not know"
            hint="Such as what lay there before the first sale"
            inputMode="decimal"
            name="other"
            defaultValue={typed.other}
          />
        </div>
        <p className="acts">
          <button type="submit" className="act">
            Compare
          </button>
        </p>
      </form>
      <table className="reckoning" aria-label="From the book to the statement">
        <tbody>
          {steps.map(([label, words]) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td className="money">{words}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {difference && <p role="status">{difference}</p>}
      {below && <p>{below}</p>}
      <div className="acts">
        <PrintLink href={`/api/papers/${paper}`}>Print the reconciliation</PrintLink>
        <a className="button" href={`/api/papers/${paper.replace('?', '/csv?')}`}>
          Save as CSV
        </a>
      </div>
      <MarkForm
        key={`open ${upTo} ${clearedCount}`}
        command="bank.clear"
        day={upTo}
        {...{ checksOut, inTransit, returned }}
      />
      {clearedCount > 0 && (
        <details>
          <summary>On the statement: {clearedCount}</summary>
          {clearedCount > cleared.length && (
            <p>These are the {cleared.length} marked last. For an older one, compare with the day of its statement.</p>
          )}
          <MarkForm key={`cleared ${clearedCount}`} command="bank.unclear" day={upTo} cleared={cleared} />
        </details>
      )}
      {checksOut.some(({ stale }) => stale) && (
        <p className="small">
          In the United States a bank need not pay a check that is older than six months, though it may (UCC § 4-404).
          Ask the seller whether it is lost, and your State what becomes of money that nobody claims.
        </p>
      )}
    </section>
  );
}
