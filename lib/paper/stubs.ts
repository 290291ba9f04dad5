/** Stubs that are cut apart, so that several share a page: a third of it each, or two where there is more to say. */
import type { ListPaper } from '#lib/paper/list.ts';

/** Whose stubs they are, and the stubs from the top of the page down, each with the thirds it takes. */
export interface StubPage extends Pick<ListPaper, 'title' | 'issuedOn' | 'association' | 'sale' | 'remarks'> {
  readonly paper: 'stubs';
  readonly stubs: readonly Stub[];
}

interface Stub {
  readonly list: ListPaper;
  readonly thirds: number;
}

const THIRDS = 3;
/** The rows that one third holds, and two. */
const ROWS = [9, 28] as const;

/** The pages in the order of the stubs. A stub with more rows than two thirds hold is a paper of its own. */
export function stubPages(lists: readonly ListPaper[]): (StubPage | ListPaper)[] {
  const pages: (StubPage | ListPaper)[] = [];
  for (const list of lists) {
    const thirds = thirdsOf(list);
    const page = pages.at(-1);
    if (thirds === null) pages.push(list);
    else if (page?.paper === 'stubs' && takenOf(page) + thirds <= THIRDS)
      pages.splice(-1, 1, { ...page, stubs: [...page.stubs, { list, thirds }] });
    else pages.push(pageOf({ list, thirds }));
  }
  return pages;
}

/** Null where two are not enough. */
function thirdsOf({ tables }: ListPaper): number | null {
  const rows = tables.flatMap((table) => table.rows).length;
  const at = ROWS.findIndex((most) => rows <= most);
  return at === -1 ? null : at + 1;
}

function takenOf({ stubs }: StubPage): number {
  return stubs.reduce((so, { thirds }) => so + thirds, 0);
}

function pageOf(stub: Stub): StubPage {
  const { title, issuedOn, association, sale } = stub.list;
  return { paper: 'stubs', title, issuedOn, association, sale, remarks: [], stubs: [stub] };
}
