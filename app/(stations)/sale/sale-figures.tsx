import type { SaleView } from '#db/queries/sale-view.ts';

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
        {view.total} {currency}
      </p>
      <table className="sale-figures">
        <caption className="visually-hidden">How far the sale has come</caption>
        <tbody>
          <Line words="Sellers and buyers" figures={`${view.sellers} and ${view.buyers}`} />
          <Line words="Lots, with their pieces" figures={`${view.lots} (${view.pieces} pieces)`} />
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
