import 'server-only';
import type { Paper } from '#app/papers/kinds.ts';
import { renderSheets } from '#app/papers/render.ts';
import { problem } from '#app/problem.ts';
import type { Book } from '#db/open.ts';
import { theAssociation } from '#db/queries/sales.ts';
import { refuse } from '#lib/result.ts';
import { told, watchOf } from './progress.ts';

interface Answer {
  readonly book: Book;
  readonly papers: readonly Paper[];
  /** The name the file is kept under, without its ending: letters, digits and hyphens. */
  readonly name: string;
  /** What to say, and do, where there is nothing to print. */
  readonly none: string;
  /** The request of a page that waits and shows how far the papers are. */
  readonly request?: Request;
}

/** The papers as one PDF on the association's own paper; a problem with status 404 where there are none. */
export async function answerPapers({ book, papers, name, none, request }: Answer): Promise<Response> {
  if (papers.length === 0) return problem(refuse('unknown', none), 404);
  const size = theAssociation(book)?.paper === 'a4' ? 'a4' : 'letter';
  const watch = request ? watchOf(request) : null;
  const bytes = await told(watch, (onProgress) => renderSheets(papers, { size, onProgress }));
  return new Response(new Uint8Array(bytes), {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': `inline; filename="${name}.pdf"`,
      'cache-control': 'no-store',
    },
  });
}
