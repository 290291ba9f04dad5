import 'server-only';
import { notFound, redirect } from 'next/navigation';
import type { Station } from '#db/book/command.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { fewestSet } from '#db/price/lists.ts';
import { dayIn, saleOfAddress, theAssociation } from '#db/sale/queries.ts';
import { FEWEST } from '#lib/price/parts.ts';
import type { RefusalCode } from '#lib/result/result.ts';
import { lineDrawnAt, theBook } from './book.ts';
import { callerAt } from './caller.ts';

export type SearchParams = Promise<Record<string, string | string[] | undefined>>;

/** A word of the address, or undefined where it is missing or given twice. */
export type Word = (name: string) => string | undefined;

export interface StationContext {
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
export async function stationContext(address: SearchParams, stations?: readonly Station[]): Promise<StationContext> {
  const caller = await callerAt(stations);
  if (!caller.ok) redirect(WHERE_TO[caller.code] ?? '/sign-in?why=station');
  return hallContext(address);
}

/** The same for the Board, which everybody in the hall may see. */
export async function hallContext(address: SearchParams): Promise<StationContext> {
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

/** The day where the association is: an evening sale is not tomorrow's because it is past midnight in UTC. */
export function today(book: Book): string {
  return dayIn(book, new Date().toISOString());
}

export interface Fewest {
  /** How many sellers, and how many buyers, a range has at least before the public sees it. */
  readonly fewest: number;
  /** Whether the association has said so, or the program does where nobody has. */
  readonly said: boolean;
}

/** `PELTRY_PRICES_FEWEST` holds for a book in which the association has set nothing. */
export function fewestNow(book: Book): Fewest {
  const set = fewestSet(book);
  if (set !== undefined) return { fewest: set, said: true };
  const ofStart = process.env.PELTRY_PRICES_FEWEST ?? '';
  return { fewest: /^[1-9]\d?$/.test(ofStart) ? Number.parseInt(ofStart, 10) : FEWEST, said: false };
}
