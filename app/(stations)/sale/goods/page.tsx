import type { Metadata } from 'next';
import { OneGoods } from '#app/(stations)/sale/goods-fields.tsx';
import { salePage } from '#app/(stations)/sale/sale-frame.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { goodsRowsOf } from '#db/sale/facts.ts';
import { whyGoodsStand } from '#db/sale/views.ts';
import { typedOf } from '#lib/field/fields.ts';
import { GOODS_FIELDS } from '#lib/sale/goods-fields.ts';

export const metadata: Metadata = { title: 'Goods' };

export default salePage('/sale/goods', ({ book, sale }) => {
  const goods = goodsRowsOf(book, sale.id);
  const stands = whyGoodsStand(sale);
  const given = { saleId: sale.id, asksWhy: sale.stage !== 'planned', stands: stands !== null };
  return (
    <section className="sheet">
      <h1>The goods this sale takes</h1>
      <p>
        Size and grade words are your own. Every sale keeps its own list, so a change here leaves other years alone.
      </p>
      {stands !== null && <Notice kind="plain" title={stands} />}
      <div className="goods-list">
        {goods.map(({ id: _id, saleId: _sale, line, ...words }) => (
          <OneGoods key={`${words.goods} ${line}`} {...given} start={typedOf(GOODS_FIELDS, words)} />
        ))}
        {stands === null && <OneGoods key={`new ${goods.length}`} {...given} />}
      </div>
    </section>
  );
});
