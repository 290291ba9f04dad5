import { PrintLink } from '#app/ui/print-link.tsx';
import { NO_COUNTY } from '#lib/paper/list.ts';

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

/** What leaves the house after a sale: papers to print and files to send. */
export function Outgoing({ saleId }: { readonly saleId: number }) {
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
