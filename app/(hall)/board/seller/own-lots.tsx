import type { SellerBoard } from '#db/queries/board-view.ts';
import { resultWords } from '../result-words.ts';

/** A seller number's lots, those to come before those that were called, with what stands before them or what they brought. */
export function OwnLots({ view: { open, results } }: { readonly view: SellerBoard }) {
  if (open.length + results.length === 0) return <p>No lot of this number is in the sale.</p>;
  const rows = [
    ...open.map(({ lotNo, goods, before }) => ({
      lotNo,
      goods,
      words: before === 0 ? 'is up now' : `${before} before it`,
    })),
    ...results.map((result) => ({ ...result, words: resultWords(result) })),
  ];
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Lot</th>
          <th scope="col">Goods</th>
          <th scope="col" className="figure">
            Brought
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ lotNo, goods, words }) => (
          <tr key={lotNo}>
            <th scope="row">{lotNo}</th>
            <td>{goods}</td>
            <td className="figure">{words}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
