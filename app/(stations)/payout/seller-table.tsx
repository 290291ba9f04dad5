import Link from 'next/link';
import type { Word } from '#app/request/page-context.ts';
import { Mark, type Tone } from '#app/ui/marks.tsx';
import { foundPage, InPages } from '#app/ui/pages.tsx';
import { type Column, ColumnTable, ScrollRegion } from '#app/ui/text.tsx';
import type { PayoutRow, PayoutState } from '#db/settlement/payout-view.ts';
import { showMoney } from '#lib/money/money.ts';
import { withoutSign } from '#lib/settlement/spelling.ts';

interface SellerListProps {
  readonly rows: readonly PayoutRow[];
  readonly saleId: number;
  readonly word: Word;
}

/** Every seller number, a page at a time, or those that were looked for: with their nets and how far each has come. */
export function SellerList({ rows, saleId, word }: SellerListProps) {
  const list = foundPage(rows, word, ({ sellerNo, names }) => ({ number: sellerNo, names }));
  const { find, shown } = list;
  return (
    <InPages list={list} saleId={saleId} path="/payout" label="Seller number or name" name="Seller numbers">
      {shown.rows.length === 0 ? (
        <p>
          {find === ''
            ? 'No seller has a number yet. Numbers are given at Intake.'
            : `No seller number and no name fits “${find}”.`}
        </p>
      ) : (
        <ScrollRegion className="scroll-x slips-room sellers" label="Seller numbers">
          <ColumnTable
            caption="Seller numbers with their nets"
            columns={columnsOf(saleId)}
            rows={shown.rows}
            keyOf={({ sellerNo }) => sellerNo}
          />
        </ScrollRegion>
      )}
    </InPages>
  );
}

const columnsOf = (saleId: number): readonly Column<PayoutRow>[] => [
  {
    ...{ head: 'Seller', as: 'key' },
    cell: ({ sellerNo }) => (
      <Link href={`/payout/${sellerNo}?sale=${saleId}`} prefetch={false}>
        {sellerNo}
      </Link>
    ),
  },
  { head: 'Who', as: 'words', className: 'slip-name', cell: ({ names }) => names.join(', ') },
  {
    ...{ head: 'How far', as: 'words', className: 'small slip-wide' },
    cell: (row) => (
      <>
        <Mark tone={TONES[row.state]}>{stateWords(row)}</Mark>
        {row.lotsSold > 0 && <span className="unbroken">, {row.lotsSold} sold</span>}
        {row.outdated && <div>{row.outdated.words}</div>}
      </>
    ),
  },
  {
    ...{ head: 'Net', as: 'sum' },
    cell: (row) => (
      <>
        {showMoney(row.netCents)}
        {netWords(row) && <div className="small">{netWords(row)}</div>}
      </>
    ),
  },
];

/** A net below nothing is a bill; one that still changes is neither owed nor to be paid. */
function netWords({ state, netCents, owingCents, writtenOff }: PayoutRow): string {
  if (state === 'waiting') return 'so far';
  if (state === 'paid' && netCents < 0) return writtenOff ? 'written off' : 'paid to us';
  return owingCents < 0 ? 'owes us' : '';
}

const TONES: Readonly<Record<PayoutState, Tone>> = {
  nothing_sold: 'plain',
  waiting: 'wait',
  ready: 'open',
  changed: 'stop',
  waits: 'wait',
  buys_too: 'wait',
  to_pay: 'open',
  paid: 'done',
  owes: 'stop',
};

function stateWords({ state, sheet, waiting, waitsFor, owesAs, owingCents, writtenOff }: PayoutRow): string {
  const issued = sheet ? `sheet ${sheet.number} issued` : '';
  switch (state) {
    case 'waiting':
      return `${waiting} lots still to be called`;
    case 'ready':
      return 'ready';
    case 'nothing_sold':
      return 'nothing sold';
    case 'changed':
      return 'no longer right';
    case 'waits':
      return `${issued}, waits for buyer ${waitsFor.join(', ')}`;
    case 'buys_too':
      return `${issued}, still owes as buyer ${owesAs.join(', ')}`;
    case 'to_pay':
      return `${issued}, ${withoutSign(owingCents)} to pay`;
    case 'paid':
      return `${issued}, ${writtenOff ? 'partly or wholly written off' : 'paid'}`;
    case 'owes':
      return `${issued}, to get from the seller`;
  }
}
