import Link from 'next/link';
import { Masthead } from '#app/ui/masthead.tsx';
import type { SaleRow } from '#db/queries/find.ts';
import { ByNumber } from '../by-number.tsx';

interface NoSuchBuyerProps {
  readonly association: string;
  readonly sale: SaleRow;
  readonly nobodys: string;
}

/** The till's box once more, with the number that nobody has still in it. */
export function NoSuchBuyer({ association, sale, nobodys }: NoSuchBuyerProps) {
  return (
    <>
      <Masthead association={association} sale={sale} here="/till" />
      <main id="main" className="page">
        <section className="sheet">
          <h1>Till</h1>
          <ByNumber saleId={sale.id} nobodys={nobodys} />
          <Link href={`/till?sale=${sale.id}`}>All buyers</Link>
        </section>
      </main>
    </>
  );
}
