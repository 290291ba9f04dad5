import { FindInList } from '#app/ui/find-in-list.tsx';
import { Pages } from '#app/ui/pages.tsx';
import type { CheckRow } from '#db/queries/checks.ts';
import { type PageOf, pageOf, ROWS_A_PAGE } from '#lib/paging.ts';
import type { PaperGround } from '#lib/paper/facts.ts';
import { partiesFound } from '#lib/party-finding.ts';
import { registerPage } from '#lib/payout/check-papers.ts';
import { ListView } from '../list-view.tsx';

type Word = (name: string) => string | undefined;

/** The checks that the address asks for: a page of all, or of those that were looked for. */
export function checksShown(checks: readonly CheckRow[], word: Word): PageOf<CheckRow> {
  const found = partiesFound(checks, word('find') ?? '', ({ number, name }) => ({ number, names: [name] }));
  return pageOf(found, word('page'));
}

interface RegisterProps {
  readonly ground: PaperGround;
  readonly checks: readonly CheckRow[];
  readonly shown: PageOf<CheckRow>;
  readonly find: string;
}

/** The check register a page at a time, with the sum of all. */
export function Register({ ground, checks, shown, find }: RegisterProps) {
  const { saleId } = ground;
  const address = (page: number) =>
    `/payout/checks?${new URLSearchParams({ sale: String(saleId), find, page: String(page) })}`;
  return (
    <>
      {checks.length > ROWS_A_PAGE && (
        <FindInList saleId={saleId} path="/payout/checks" label="Check number or name" find={find} />
      )}
      <ListView list={registerPage(ground, checks, shown.rows)} />
      <Pages of={shown} name="Checks" href={address} />
    </>
  );
}
