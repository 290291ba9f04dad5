import Link from 'next/link';
import type { PageOf } from '#lib/paging.ts';

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
