import Link from 'next/link';
import { Mark, type Tone } from '#app/ui/marks.tsx';
import { ColumnHeads, ScrollRegion } from '#app/ui/text.tsx';
import type { IntakeLot } from '#db/lot/queries.ts';
import type { GoodsChoice } from '#db/sale/goods.ts';
import type { SeasonTags } from '#lib/tag/head.ts';
import { TagEditor } from './tag-editor.tsx';

interface LotListProps {
  readonly saleId: number;
  readonly lots: readonly IntakeLot[];
  readonly goods: readonly GoodsChoice[];
  readonly caption: string;
  /** Shows whose each lot is, where the lots are not of one seller. */
  readonly withSeller?: boolean;
}

/** Lots with their state in words; what holds a lot back stands under it, with its tags to be put right in place. */
export function SellerLotList({ saleId, lots, goods, caption, withSeller = false }: LotListProps) {
  if (lots.length === 0) return null;
  const seasonOf = (code: string) => goods.find((one) => one.goods === code)?.seasonTags ?? null;
  return (
    <ScrollRegion className="scroll-x" label={caption}>
      <table className="lots">
        <caption>{caption}</caption>
        <ColumnHeads words={['Lot', ...(withSeller ? ['Seller'] : []), 'Goods', 'What is in it', 'Minimum', 'State']} />
        <tbody>
          {lots.map((lot) => (
            <LotRow key={lot.lotId} {...{ saleId, lot, withSeller }} season={seasonOf(lot.typed.goods)} />
          ))}
        </tbody>
      </table>
    </ScrollRegion>
  );
}

interface LotRowProps extends Pick<LotListProps, 'saleId' | 'withSeller'> {
  readonly lot: IntakeLot;
  readonly season: SeasonTags | null;
}

function LotRow({ saleId, lot, season, withSeller }: LotRowProps) {
  const { tone, words } = STATES[lot.state];
  return (
    <tr>
      <th scope="row" className="lot-no">
        <Link href={`/intake/lot/${lot.lotNo}?sale=${saleId}`} prefetch={false}>
          {lot.lotNo}
        </Link>
      </th>
      {withSeller && <td className="seller-of">{lot.sellerNo}</td>}
      <td className="lot-goods">
        {lot.goodsName}
        {lot.caution && <p className="small">{lot.caution}</p>}
      </td>
      <td>
        {[lot.quantity, lot.details].filter(Boolean).join(', ')}
        {lot.typed.donated && <p className="small">Donated to the association</p>}
      </td>
      <td>{lot.typed.withoutReserve ? 'without reserve' : lot.minimum}</td>
      <td className="lot-state">
        <Mark tone={tone}>{lot.state === 'called' ? lot.outcome : words}</Mark>
        {lot.holds.map((hold) => (
          <p key={hold}>{hold}</p>
        ))}
        {lot.tags.some(({ cameBack }) => cameBack) && <p className="small">Came back: went home unsold before.</p>}
        {season && lot.state !== 'called' && <TagEditor lot={lot} season={season} />}
      </td>
    </tr>
  );
}

const STATES: Readonly<Record<IntakeLot['state'], { readonly tone: Tone; readonly words: string }>> = {
  ready: { tone: 'done', words: 'ready' },
  on_hold: { tone: 'stop', words: 'on hold' },
  called: { tone: 'plain', words: 'called' },
};
