import 'server-only';
import { notFound } from 'next/navigation';
import type { Book } from '#db/open.ts';
import type { SaleRow } from '#db/queries/find.ts';
import { saleOfAddress, theAssociation } from '#db/queries/sales.ts';
import { theBook } from './book.ts';

export type Address = Promise<Record<string, string | string[] | undefined>>;

export interface StationGround {
  readonly book: Book;
  readonly association: string;
  readonly sale: SaleRow | undefined;
  /** A word of the address, or undefined where it is missing or given twice. */
  readonly word: (name: string) => string | undefined;
}

/** What every station page stands on: the open book, whose it is, and the sale its address names. */
export async function stationGround(address: Address): Promise<StationGround> {
  const book = await theBook();
  const words = await address;
  const word = (name: string) => {
    const value = words[name];
    return typeof value === 'string' ? value : undefined;
  };
  const sale = saleOfAddress(book, word('sale'));
  if (word('sale') !== undefined && !sale) notFound();
  return { book, association: theAssociation(book)?.name ?? 'Your association', sale, word };
}
