import type { Metadata } from 'next';
import Link from 'next/link';
import { ListPaperView } from '#app/(stations)/payout/list-paper-view.tsx';
import { payoutPage } from '#app/(stations)/payout/payout-frame.tsx';
import { today } from '#app/request/page-context.ts';
import { Pages } from '#app/ui/pages.tsx';
import { PrintLink } from '#app/ui/text.tsx';
import { heldOverView } from '#db/report/queries.ts';
import { NO_ADVICE, NO_COUNTY } from '#lib/paper/list.ts';
import { PayoutSettings } from './payout-settings.tsx';

export const metadata: Metadata = { title: 'Afterwards' };

export default payoutPage('/payout/after', ({ book, sale, word }) => {
  const { list: held, sellers } = heldOverView(book, sale, { drawnOn: today(book), page: word('page') });
  return (
    <div className="table-top">
      <section className="sheet">
        <h1>After the sale</h1>
        <Outgoing saleId={sale.id} />
        <p>
          <strong>{NO_ADVICE}</strong> Sales tax and information returns (such as those for what was paid to each
          seller) are for the accountant.
        </p>
      </section>
      <aside className="aside">
        <h2>This sale’s settings</h2>
        <PayoutSettings saleId={sale.id} {...{ sellersWait: sale.sellersWait, statementDays: sale.statementDays }} />
      </aside>
      <section className="below">
        <h2>{held.title}</h2>
        <ListPaperView list={{ ...held, caution: '' }} />
        <Pages of={sellers} name="Sellers" href={(page) => `/payout/after?sale=${sale.id}&page=${page}`} />
      </section>
    </div>
  );
});

interface Outgoing {
  readonly name: string;
  readonly says: string;
  readonly paper?: string;
  readonly files: readonly string[];
}

const ALL: readonly Outgoing[] = [
  {
    name: 'Return to the agency',
    says: `Every lot sold: seller, goods, price, tags, State, buyer. ${NO_COUNTY}`,
    paper: 'agency-return',
    files: ['agency_return.csv'],
  },
  { name: 'Tag register', says: 'Every export tag with its lot and its buyer.', files: ['tag_register.csv'] },
  {
    name: 'Furs held over',
    says: 'What went home unsold, with the day by which a statement is due.',
    paper: 'held-over',
    files: ['held_over.csv'],
  },
  {
    name: 'What the association keeps',
    says: 'Commission, fees, premium, dues and tax, this sale beside the one before.',
    paper: 'kept',
    files: [],
  },
  { name: 'Prices', says: 'What each kind brought.', files: ['price_table.csv'] },
  {
    name: 'For the accountant',
    says: 'The journal in double entry, as a table and as plain-text accounting.',
    files: ['journal.csv', 'journal.ledger', 'settlements.csv'],
  },
];

/** What leaves the association after a sale: papers to print and files to send. */
function Outgoing({ saleId }: { readonly saleId: number }) {
  return (
    <>
      {ALL.map(({ name, says, paper, files }) => (
        <section key={name} aria-label={name}>
          <h2>{name}</h2>
          <p>{says}</p>
          <div className="acts">
            {paper && <PrintLink href={`/api/papers/payout/${paper}?sale=${saleId}`}>Print: {name}</PrintLink>}
            {files.map((file) => (
              <a key={file} className="button" href={`/api/files/payout/${file}?sale=${saleId}`}>
                {file}
              </a>
            ))}
          </div>
        </section>
      ))}
      <section aria-label="The calendar year">
        <h2>The calendar year</h2>
        <p>What sellers were paid by person, the sales tax and large cash payments, over all sales of a year.</p>
        <div className="acts">
          <Link className="button" href={`/payout/year?sale=${saleId}`}>
            The year
          </Link>
          <PrintLink href={`/api/papers/sales-tax?sale=${saleId}`}>Print: sales tax of this sale</PrintLink>
          <a className="button" href={`/api/papers/sales-tax/csv?sale=${saleId}`}>
            sales_tax.csv
          </a>
        </div>
      </section>
      <section aria-label="The whole sale">
        <h2>The whole sale</h2>
        <p>As an exchange folder: plain tables for your own checks, or for the program after this one.</p>
        <div className="acts">
          <a className="button" href={`/api/files/payout/exchange_folder.zip?sale=${saleId}`}>
            Save the whole sale
          </a>
        </div>
      </section>
    </>
  );
}
