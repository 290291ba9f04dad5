import Link from 'next/link';
import { GiveButton } from '#app/(stations)/give-forms.tsx';
import { SentenceMark } from '#app/(stations)/intake/standings.tsx';
import type { Word } from '#app/request/page-context.ts';
import { Mark, type Tone } from '#app/ui/marks.tsx';
import { foundPage, InPages } from '#app/ui/pages.tsx';
import { type Column, ColumnTable, ScrollRegion } from '#app/ui/text.tsx';
import type { Book } from '#db/book/open.ts';
import { type BuyerHead, invoicesShown } from '#db/buyer/queries.ts';
import type { InvoiceState } from '#db/invoice/queries.ts';
import { showMoney } from '#lib/money/money.ts';
import { owingWords, paidWords } from '#lib/payment/amount-words.ts';
import { lower } from '#lib/settlement/spelling.ts';
import { InvoiceMark } from './till-frame.tsx';

interface BuyerListProps {
  readonly book: Book;
  readonly rows: readonly BuyerHead[];
  readonly saleId: number;
  readonly word: Word;
}

/** Every buyer, a page at a time, or those that were looked for. */
export function BuyerList({ book, rows, saleId, word }: BuyerListProps) {
  const list = foundPage(rows, word, ({ buyerNo, name }) => ({ number: buyerNo, names: [name] }));
  const shown = list.shown.rows.map(({ buyerNo }) => buyerNo);
  const invoices = invoicesShown(book, saleId, shown);
  return (
    <InPages list={list} saleId={saleId} path="/till" label="Buyer’s name" name="Buyers">
      <BuyerTable rows={list.shown.rows} {...{ invoices, find: list.find, saleId }} />
    </InPages>
  );
}

interface BuyerTableProps {
  readonly rows: readonly BuyerHead[];
  /** The newest invoices of those who have one. */
  readonly invoices: ReadonlyMap<number, InvoiceState>;
  /** What was looked for, or empty. */
  readonly find: string;
  readonly saleId: number;
}

/** Buyer numbers with what was bought, paid and is owing. */
function BuyerTable({ rows, invoices, find, saleId }: BuyerTableProps) {
  if (rows.length === 0 && find !== '') return <p>No buyer number and no name fits “{find}”.</p>;
  if (rows.length === 0) return <p>No buyer has a number yet: register the first one here.</p>;
  return (
    <ScrollRegion label="Buyers">
      <ColumnTable
        caption="Buyers with what they owe"
        className="buyers"
        columns={columnsOf(saleId, invoices)}
        rows={rows}
        keyOf={({ buyerNo }) => buyerNo}
      />
    </ScrollRegion>
  );
}

const columnsOf = (saleId: number, invoices: BuyerTableProps['invoices']): readonly Column<BuyerHead>[] => [
  {
    ...{ head: 'Buyer', as: 'key' },
    cell: ({ buyerNo }) => (
      <Link href={`/till/${buyerNo}?sale=${saleId}`} prefetch={false}>
        {buyerNo}
      </Link>
    ),
  },
  { head: 'Who', as: 'words', className: 'slip-name', cell: ({ name }) => name },
  {
    ...{ head: 'How they stand', as: 'words', className: 'slip-wide' },
    cell: (row) => (
      <>
        <BuyerStanding buyer={row} />
        {row.lots > 0 && <Bought buyer={row} invoice={invoices.get(row.buyerNo)} />}
      </>
    ),
  },
  {
    ...{ head: 'Owing', as: 'sum' },
    cell: ({ owingCents, givenUpCents, lots }) => (
      <>
        {owingWords(owingCents).amount}
        <div className="small">
          {lots > 0 && owingCents === 0 && (
            <Mark tone="done">{givenUpCents === 0 ? 'paid' : 'partly written off'}</Mark>
          )}
          {owingCents < 0 && 'we owe them'}
        </div>
      </>
    ),
  },
];

/** What was bought and paid, whether it is billed, and where it lies. */
function Bought({ buyer, invoice }: { readonly buyer: BuyerHead; readonly invoice: InvoiceState | undefined }) {
  const { lots, lotsHere, totalCents } = buyer;
  const [paid, ...apart] = paidWords(buyer);
  return (
    <div className="small buyer-standing">
      <span>
        {lots === 1 ? '1 lot' : `${lots} lots`}, bought {showMoney(totalCents)},{' '}
        {[paid, ...apart].map(({ label, amount }) => `${lower(label.replace(' so far', ''))} ${amount}`).join(', ')}
      </span>
      {invoice && <InvoiceMark invoice={invoice} />}
      {lotsHere < lots && <span>{whereabouts(buyer)}</span>}
    </div>
  );
}

/** Said once a lot is gone: until then all lie on the table. */
function whereabouts({ lotsHere }: BuyerHead): string {
  if (lotsHere === 0) return 'all lots taken away';
  return lotsHere === 1 ? '1 lot still here' : `${lotsHere} lots still here`;
}

const LICENCE: Readonly<Record<BuyerHead['licence']['state'], Tone>> = {
  good: 'done',
  undated: 'open',
  missing: 'wait',
  expired: 'stop',
};

/** Whether a buyer may buy, by which licence, and whether they have gone beyond their limit. */
export function BuyerStanding({ buyer }: { readonly buyer: BuyerHead }) {
  const by = buyer.clearedBy === '' ? '' : ` by ${buyer.clearedBy}`;
  return (
    <div className="small buyer-standing">
      <Mark tone={buyer.cleared ? 'done' : 'stop'}>{buyer.cleared ? `cleared${by}` : 'not cleared'}</Mark>
      {buyer.walkIn && <Mark tone="open">walk-in</Mark>}
      <SentenceMark tone={LICENCE[buyer.licence.state]} words={buyer.licence.words} />
      {buyer.exemptNo !== null && <span>pays no tax, exemption {buyer.exemptNo}</span>}
      {buyer.overLimitCents !== null && <Mark tone="stop">beyond the limit of {showMoney(buyer.overLimitCents)}</Mark>}
    </div>
  );
}

interface ClearanceProps {
  readonly saleId: number;
  readonly buyer: Pick<BuyerHead, 'buyerNo' | 'cleared'>;
}

/** Clears the buyer to buy, or takes the clearance back. */
export function Clearance({ saleId, buyer: { buyerNo, cleared } }: ClearanceProps) {
  const input = { saleId, buyerNo, cleared: !cleared };
  return (
    <div className="clearance">
      <GiveButton command="buyer.clear" input={input} label={`Clearance of buyer ${buyerNo}`}>
        {cleared ? 'Take the clearance back' : 'Clear to buy'}
      </GiveButton>
    </div>
  );
}
