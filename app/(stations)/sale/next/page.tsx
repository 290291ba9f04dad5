import type { Metadata } from 'next';
import { salePage } from '#app/(stations)/sale/sale-frame.tsx';
import { termsView } from '#db/sale/views.ts';
import { NextSale } from './next-sale.tsx';

export const metadata: Metadata = { title: 'Next sale' };

export default salePage('/sale/next', ({ book, sale }) => (
  <NextSale likeSaleId={sale.id} like={sale} goods={termsView(book, sale).goods.length} />
));
