import type { Metadata } from 'next';
import { salePage } from '#app/(stations)/sale/sale-frame.tsx';
import { termsView } from '#db/sale/views.ts';
import { AmendTerms } from './amend-terms.tsx';

export const metadata: Metadata = { title: 'Terms' };

export default salePage('/sale/terms', ({ book, sale }) => (
  <AmendTerms key={sale.line} saleId={sale.id} stage={sale.stage} view={termsView(book, sale)} />
));
