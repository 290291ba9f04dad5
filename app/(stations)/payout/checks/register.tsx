import type { Word } from '#app/station.ts';
import { type FoundPage, foundPage, InPages } from '#app/ui/in-pages.tsx';
import type { CheckRow } from '#db/queries/checks.ts';
import type { PaperGround } from '#lib/paper/facts.ts';
import { registerPage } from '#lib/payout/check-papers.ts';
import { ListView } from '../list-view.tsx';

/** The checks that the address asks for: a page of all, or of those that were looked for. */
export function checksShown(checks: readonly CheckRow[], word: Word): FoundPage<CheckRow> {
  return foundPage(checks, word, ({ number, name }) => ({ number, names: [name] }));
}

interface RegisterProps {
  readonly ground: PaperGround;
  readonly checks: readonly CheckRow[];
  readonly list: FoundPage<CheckRow>;
}

/** The check register a page at a time, with the sum of all. */
export function Register({ ground, checks, list }: RegisterProps) {
  return (
    <InPages list={list} saleId={ground.saleId} path="/payout/checks" label="Check number or name" name="Checks">
      <ListView list={registerPage(ground, checks, list.shown.rows)} />
    </InPages>
  );
}
