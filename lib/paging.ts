/** A long list a page at a time: whoever works with it reads a hundred lines, and nobody waits for five thousand. */

export const ROWS_A_PAGE = 100;

export interface PageOf<T> {
  readonly rows: readonly T[];
  /** Of which page, from 1, of how many; 1 of 1 where there is nothing. */
  readonly page: number;
  readonly pages: number;
  /** The place of the first and the last row in the whole list, from 1; both 0 where there is none. */
  readonly first: number;
  readonly last: number;
  readonly all: number;
}

/** The page that an address asks for. A word that is no page is the first, and one beyond the end the last. */
export function pageOf<T>(rows: readonly T[], asked: string | undefined, most = ROWS_A_PAGE): PageOf<T> {
  const pages = Math.max(1, Math.ceil(rows.length / most));
  const wanted = /^[1-9]\d{0,6}$/.test(asked ?? '') ? Number.parseInt(asked ?? '', 10) : 1;
  const page = Math.min(wanted, pages);
  const from = (page - 1) * most;
  const shown = rows.slice(from, from + most);
  const place = shown.length === 0 ? { first: 0, last: 0 } : { first: from + 1, last: from + shown.length };
  return { rows: shown, page, pages, ...place, all: rows.length };
}
