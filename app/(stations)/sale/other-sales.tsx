import Link from 'next/link';
import { StageMark } from '#app/ui/stage-mark.tsx';
import { Unbroken } from '#app/ui/unbroken.tsx';
import type { SaleRow } from '#db/queries/find.ts';

interface OtherSalesProps {
  readonly sales: readonly SaleRow[];
  readonly here: number;
}

/** The other sales of the book, the newest first. */
export function OtherSales({ sales, here }: OtherSalesProps) {
  const others = sales.filter(({ id }) => id !== here);
  if (others.length === 0) return null;
  return (
    <section>
      <h2>Other sales in this book</h2>
      <ul className="other-sales">
        {others.map(({ id, name, heldOn, season, stage }) => (
          <li key={id}>
            <Link href={`/?sale=${id}`}>{name}</Link>, <Unbroken>{`${heldOn}, season ${season}`}</Unbroken>{' '}
            <StageMark stage={stage} />
          </li>
        ))}
      </ul>
    </section>
  );
}
