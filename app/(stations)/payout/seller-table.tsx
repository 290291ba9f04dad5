import Link from 'next/link';
import type { Word } from '#app/request/page-context.ts';
import { Mark, type Tone } from '#app/ui/marks.tsx';
import { foundPage, InPages } from '#app/ui/pages.tsx';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import type { PayoutRow, PayoutState } from '#db/settlement/payout-view.ts';
import { showMoney } from '#lib/money/money.ts';

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
          <table className="slips summed">
            <caption className="visually-hidden">Seller numbers with their nets</caption>
            <ColumnHeads words={['Seller', 'Who', 'How far']} money={['Net']} />
            <tbody>
              {shown.rows.map((row) => (
                <SellerRow key={row.sellerNo} row={row} saleId={saleId} />
              ))}
            </tbody>
          </table>
        </ScrollRegion>
      )}
    </InPages>
  );
}

function SellerRow({ row, saleId }: { readonly row: PayoutRow; readonly saleId: number }) {
  return (
    <tr>
      <th scope="row">
        <Link href={`/payout/${row.sellerNo}?sale=${saleId}`} prefetch={false}>
          {row.sellerNo}
        </Link>
      </th>
      <td className="slip-name">{row.names.join(', ')}</td>
      <td className="small slip-wide">
        <Mark tone={TONES[row.state]}>{stateWords(row)}</Mark>
        {row.lotsSold > 0 && <span className="unbroken">, {row.lotsSold} sold</span>}
      </td>
      <td className="money slip-sum">
        {showMoney(row.netCents)}
        {netWords(row) && <div className="small">{netWords(row)}</div>}
      </td>
    </tr>
  );
}

/** A net below nothing is a bill; one that still changes is neither owed nor to be paid. */
function netWords({ state, netCents, owingCents }: PayoutRow): string {
  if (state === 'waiting') return 'so far';
  if (state === 'paid' && netCents < 0) return 'paid to us';
  return owingCents < 0 ? 'owes us' : '';
}

const TONES: Readonly<Record<PayoutState, Tone>> = {
  nothing_sold: 'plain',
  waiting: 'wait',
  ready: 'open',
  changed: 'stop',
  waits: 'wait',
  to_pay: 'open',
  paid: 'done',
  owes: 'stop',
};

function stateWords({ state, sheet, waiting, waitsFor, owingCents }: PayoutRow): string {
  const issued = sheet ? `sheet ${sheet.number} issued` : '';
  switch (state) {
    case 'waiting':
      return `${waiting} lots still to be called`;
    case 'ready':
      return 'ready';
    case 'nothing_sold':
      return 'nothing sold';
    case 'changed':
      return `sheet ${sheet?.number} is no longer right`;
    case 'waits':
      return `${issued}, waits for buyer ${waitsFor.join(', ')}`;
    case 'to_pay':
      return `${issued}, ${showMoney(owingCents)} to pay`;
    case 'paid':
      return `${issued}, paid`;
    case 'owes':
      return `${issued}, to get from the seller`;
  }
}
