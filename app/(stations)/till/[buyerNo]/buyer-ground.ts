import 'server-only';
import { notFound } from 'next/navigation';
import { type Address, stationGround } from '#app/station.ts';
import type { Book } from '#db/open.ts';
import { buyerFile } from '#db/queries/buyer-files.ts';
import type { SaleRow } from '#db/queries/find.ts';
import type { BuyerFile } from '#lib/buyer/input.ts';

export interface BuyerPageProps {
  readonly params: Promise<{ buyerNo: string }>;
  readonly searchParams: Address;
}

export interface BuyerGround {
  readonly book: Book;
  readonly association: string;
  readonly sale: SaleRow;
  readonly buyerNo: number;
  readonly file: BuyerFile;
}

/** What the pages of one buyer stand on; a page that is not there where the sale has no such number. */
export async function buyerGround({ params, searchParams }: BuyerPageProps): Promise<BuyerGround> {
  const { book, association, sale } = await stationGround(searchParams, ['till']);
  const { buyerNo: text } = await params;
  if (!sale || !/^\d{1,5}$/.test(text)) notFound();
  const buyerNo = Number.parseInt(text, 10);
  const file = buyerFile(book, sale.id, buyerNo);
  if (!file) notFound();
  return { book, association, sale, buyerNo, file };
}
