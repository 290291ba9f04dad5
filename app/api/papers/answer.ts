import 'server-only';
import type { Paper } from '#app/papers/kinds.ts';
import { renderSheets } from '#app/papers/render.ts';
import { fileResponse, notFoundProblem } from '#app/server/responses.ts';
import type { Book } from '#db/book/open.ts';
import { theAssociation } from '#db/sale/queries.ts';

interface Answer {
  readonly book: Book;
  readonly papers: readonly Paper[];
  /** The file's name without its ending: letters, digits and hyphens. */
  readonly name: string;
  /** What to say, and do, where there is nothing to print. */
  readonly none: string;
  /** The request of a page that waits and shows how far the papers are. */
  readonly request?: Request;
}

/** The papers as one PDF on the association's own paper; a problem with status 404 where there are none. */
export async function answerPapers({ book, papers, name, none, request }: Answer): Promise<Response> {
  if (papers.length === 0) return notFoundProblem(none);
  const size = theAssociation(book)?.paper === 'a4' ? 'a4' : 'letter';
  const watch = request ? watchOf(request) : null;
  const onProgress = (done: number, of: number) => {
    if (watch !== null) progress.set(watch, { done, of });
  };
  try {
    const bytes = await renderSheets(papers, { size, onProgress });
    return fileResponse(new Uint8Array(bytes), { name: `${name}.pdf`, type: 'application/pdf', inline: true });
  } finally {
    if (watch !== null) progress.delete(watch);
  }
}

/** How far the papers of this process are that somebody waits for, by the key that the waiting page drew. */
export interface PaperProgress {
  readonly done: number;
  readonly of: number;
}

/** Pages and route handlers of one server get a module each, so what they share hangs on `globalThis`. */
const shared = globalThis as { peltryPaperProgress?: Map<string, PaperProgress> };
shared.peltryPaperProgress ??= new Map();
const progress = shared.peltryPaperProgress;

/** A key is letters, digits and hyphens; whatever else an address brings is nobody's. */
export function watchOf(request: Request): string | null {
  const key = new URL(request.url).searchParams.get('watch') ?? '';
  return /^[\w-]{8,64}$/.test(key) ? key : null;
}

export function progressOf(watch: string): PaperProgress | null {
  return progress.get(watch) ?? null;
}
