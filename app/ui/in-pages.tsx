import type { ReactNode } from 'react';
import type { Word } from '#app/station.ts';
import { type PageOf, pageOf, ROWS_A_PAGE } from '#lib/paging.ts';
import { type Party, partiesFound } from '#lib/party-finding.ts';
import { FindInList } from './find-in-list.tsx';
import { Pages } from './pages.tsx';

/** A page of a long list, of all its rows or of those that were looked for. */
export interface FoundPage<T> {
  readonly find: string;
  readonly shown: PageOf<T>;
  /** How many rows the whole list has. */
  readonly many: number;
}

/** The page that an address asks for. */
export function foundPage<T>(rows: readonly T[], word: Word, partyOf: (row: T) => Party): FoundPage<T> {
  const find = word('find') ?? '';
  return { find, shown: pageOf(partiesFound(rows, find, partyOf), word('page')), many: rows.length };
}

interface InPagesProps {
  readonly list: FoundPage<unknown>;
  readonly saleId: number;
  /** The page that lists them. */
  readonly path: string;
  /** What the box finds by, such as `Seller number or name`, and what is listed, such as `Seller numbers`. */
  readonly label: string;
  readonly name: string;
  readonly children: ReactNode;
}

/** The rows of a page, with a box above where the list is long and the ways to its other pages under it. */
export function InPages({ list: { find, shown, many }, saleId, path, label, name, children }: InPagesProps) {
  const address = (page: number) =>
    `${path}?${new URLSearchParams({ sale: String(saleId), find, page: String(page) })}`;
  return (
    <>
      {many > ROWS_A_PAGE && <FindInList saleId={saleId} path={path} label={label} find={find} />}
      {children}
      <Pages of={shown} name={name} href={address} />
    </>
  );
}
