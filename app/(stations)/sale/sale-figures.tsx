import { bySale, cachedRead } from '#app/server/read-cache.ts';
import { type SaleView, saleView } from '#db/queries/sale-view.ts';

export const cachedSale = cachedRead(saleView, bySale);

interface SaleFiguresProps {
  readonly view: SaleView;
  readonly currency: string;
}

/** How far the sale has come: what came in, what became of it, and what it brought. */
export function SaleFigures({ view, currency }: SaleFiguresProps) {
  return (
    <>
      <p>The hammer has brought</p>
      <p className="figure-large">
        {view.total} <small>{currency}</small>
      </p>
      <table className="sale-figures">
        <caption className="visually-hidden">How far the sale has come</caption>
        <tbody>
          <Line words="Sellers" figures={view.sellers} />
          <Line words="Buyers" figures={view.buyers} />
          <Line words="Lots" figures={view.lots} />
          <Line words="Pieces in them" figures={view.pieces} />
          <Line words="On hold, until their tags are right" figures={view.onHold} />
          <Line words="Sold" figures={view.sold} />
          <Line words="Passed" figures={view.passed} />
          <Line words="Withdrawn" figures={view.withdrawn} />
          <Line words="Still to be called" figures={view.left} />
        </tbody>
      </table>
    </>
  );
}

function Line({ words, figures }: { readonly words: string; readonly figures: string | number }) {
  return (
    <tr>
      <th scope="row">{words}</th>
      <td className="figure">{figures}</td>
    </tr>
  );
}
