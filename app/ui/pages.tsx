import Link from 'next/link';
import type { ReactNode } from 'react';
import type { Word } from '#app/request/page-context.ts';
import { type FoundParty, type PageOf, pageOf, partiesFound, ROWS_A_PAGE } from '#lib/result/search.ts';
import { TextField } from './field.tsx';

interface PagesProps {
  readonly of: PageOf<unknown>;
  /** What is listed, such as `Seller numbers`. */
  readonly name: string;
  /** The address of a page. */
  readonly href: (page: number) => string;
}

/** Where in a long list this page is, and the ways to the others; nothing where all of it is here. */
export function Pages({ of: { page, pages, first, last, all }, name, href }: PagesProps) {
  if (pages <= 1) return null;
  const way = (to: number, words: string) =>
    to >= 1 && to <= pages && to !== page ? (
      <Link className="button" href={href(to)} prefetch={false}>
        {words}
      </Link>
    ) : null;
  return (
    <nav className="acts no-print" aria-label={`Pages: ${name}`}>
      <span>
        {first.toLocaleString('en-US')} to {last.toLocaleString('en-US')} of {all.toLocaleString('en-US')}
      </span>
      {page > 2 && way(1, 'First')}
      {way(page - 1, 'Before')}
      {way(page + 1, 'Next')}
      {page < pages - 1 && way(pages, 'Last')}
    </nav>
  );
}

/** A page of a long list, of all its rows or of those that were looked for. */
export interface FoundPage<T> {
  readonly find: string;
  readonly shown: PageOf<T>;
  /** How many rows the whole list has. */
  readonly many: number;
}

/** The page that an address asks for. */
export function foundPage<T>(rows: readonly T[], word: Word, partyOf: (row: T) => FoundParty): FoundPage<T> {
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

/**
 * The rows of a page, with a box above where the list is long and the ways to its other pages under it. The box works
 * without a script.
 */
export function InPages({ list: { find, shown, many }, saleId, path, label, name, children }: InPagesProps) {
  const address = (page: number) =>
    `${path}?${new URLSearchParams({ sale: String(saleId), find, page: String(page) })}`;
  return (
    <>
      {many > ROWS_A_PAGE && (
        <form className="find-in-list no-print" method="get" action={path}>
          <input type="hidden" name="sale" value={saleId} />
          <TextField label={label} name="find" defaultValue={find} key={find} />
          <button type="submit">Find</button>
        </form>
      )}
      {children}
      <Pages of={shown} name={name} href={address} />
    </>
  );
}
