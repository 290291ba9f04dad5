import { sellerFiles } from '#db/queries/sheets.ts';
import { receipt } from '#lib/paper/receipt.ts';
import { answerLists } from '../lists.ts';

/** The receipt of one seller number's goods: `?sale=1&seller=3`. */
export function GET(request: Request): Promise<Response> {
  return answerLists(request, {
    name: 'receipt',
    none: 'There is no such seller number in this sale.',
    make: ({ book, sale, ground, lots, word }) =>
      sellerFiles(book, sale.id)
        .filter(({ seller }) => String(seller.sellerNo) === word('seller'))
        .map((file) =>
          receipt(
            ground,
            file,
            lots.filter(({ sellerNo }) => sellerNo === file.seller.sellerNo),
          ),
        ),
  });
}
