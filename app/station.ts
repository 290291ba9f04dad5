import 'server-only';
import { notFound, redirect } from 'next/navigation';
import type { Station } from '#db/command.ts';
import type { Book } from '#db/open.ts';
import type { SaleRow } from '#db/queries/find.ts';
import { saleOfAddress, theAssociation } from '#db/queries/sales.ts';
import type { RefusalCode } from '#lib/result.ts';
import { theBook } from './book.ts';
import { callerAt } from './caller.ts';
import { lineDrawnAt } from './line-drawn-at.ts';

export type Address = Promise<Record<string, string | string[] | undefined>>;

/** A word of the address, or undefined where it is missing or given twice. */
export type Word = (name: string) => string | undefined;

export interface StationGround {
  readonly book: Book;
  readonly association: string;
  readonly sale: SaleRow | undefined;
  readonly word: Word;
}

const WHERE_TO: Readonly<Partial<Record<RefusalCode, string>>> = {
  signed_out: '/sign-in',
  open_line: '/sign-in?why=line',
};

/**
 * What every station page stands on: the open book, whose it is, and the sale its address names. Whoever works at none
 * of these stations is sent to sign in; where none is named, every worker may read.
 */
export async function stationGround(address: Address, stations?: readonly Station[]): Promise<StationGround> {
  const caller = await callerAt(stations);
  if (!caller.ok) redirect(WHERE_TO[caller.code] ?? '/sign-in?why=station');
  return hallGround(address);
}

/** The same for the Board, which everybody in the hall may see. */
export async function hallGround(address: Address): Promise<StationGround> {
  const book = await theBook();
  await lineDrawnAt();
  const words = await address;
  const word = (name: string) => {
    const value = words[name];
    return typeof value === 'string' ? value : undefined;
  };
  const sale = saleOfAddress(book, word('sale'));
  if (word('sale') !== undefined && !sale) notFound();
  return { book, association: theAssociation(book)?.name ?? 'Your association', sale, word };
}
