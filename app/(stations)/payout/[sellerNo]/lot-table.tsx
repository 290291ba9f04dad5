import { ColumnHeads } from '#app/ui/column-heads.tsx';
import type { LotGroup, SettlementSheet, SheetLot } from '#lib/sheet/model.ts';

interface LotTableProps {
  readonly groups: readonly LotGroup[];
  readonly sum: SettlementSheet['countedSum'];
}

/** The lots of a sheet in their groups, with the sum under them where they have one. */
export function LotTable({ groups, sum }: LotTableProps) {
  if (groups.length === 0) return null;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: A table wider than the screen is scrolled by keyboard too.
    <section className="scroll-x slips-room" aria-label={groups.map(({ title }) => title).join(', ')} tabIndex={0}>
      <table className="slips summed">
        <ColumnHeads words={['Lot', 'Goods', 'Quantity', 'Price']} money={['Amount', 'Commission', 'Fees', 'Net']} />
        {groups.map((group) => (
          <tbody key={group.kind}>
            <tr>
              <th scope="rowgroup" colSpan={8}>
                {group.title}
              </th>
            </tr>
            {group.lots.map((lot) => (
              <LotRow key={lot.lotNo} lot={lot} />
            ))}
          </tbody>
        ))}
        {sum && (
          <tfoot>
            <tr>
              <th scope="row" colSpan={4} className="slip-name">
                {sum.label}
              </th>
              <Figures of={sum} />
            </tr>
          </tfoot>
        )}
      </table>
    </section>
  );
}

function LotRow({ lot }: { readonly lot: SheetLot }) {
  return (
    <tr>
      <th scope="row">{lot.lotNo}</th>
      <td className="slip-name">
        {lot.goods}
        {lot.detail && <div className="small soft">{lot.detail}</div>}
        {lot.note && <div className="small">{lot.note}</div>}
      </td>
      <td>{lot.quantity.words}</td>
      <td>
        {lot.price.kind === 'minimum' && 'minimum '}
        {lot.price.words}
      </td>
      <Figures of={lot} how={lot.commissionHow} />
    </tr>
  );
}

interface FiguresProps {
  readonly of: Pick<SheetLot, 'amount' | 'commission' | 'fees' | 'net'>;
  /** How the commission is reckoned. */
  readonly how?: string;
}

function Figures({ of: { amount, commission, fees, net }, how = '' }: FiguresProps) {
  return (
    <>
      <td className="money" data-head="Amount">
        {amount.words}
      </td>
      <td className="money" data-head="Commission">
        {commission.words}
        {how && <div className="small soft">{how}</div>}
      </td>
      <td className="money" data-head="Fees">
        {fees.words}
      </td>
      <td className="money slip-sum" data-head="Net">
        {net.words}
      </td>
    </>
  );
}
