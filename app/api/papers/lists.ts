import 'server-only';
import { staffBook } from '#app/caller.ts';
import { problem } from '#app/problem.ts';
import { today } from '#app/today.ts';
import type { Book } from '#db/open.ts';
import type { SaleRow } from '#db/queries/find.ts';
import { paperGround, paperLots } from '#db/queries/paper-lots.ts';
import { saleOfAddress } from '#db/queries/sales.ts';
import type { PaperGround, PaperLot } from '#lib/paper/facts.ts';
import type { ListPaper } from '#lib/paper/list.ts';
import { type Result, refuse } from '#lib/result.ts';
import { answerPapers } from './answer.ts';

/** What a paper of one sale is made from. */
export interface PaperScene {
  readonly book: Book;
  readonly sale: SaleRow;
  readonly ground: PaperGround;
  /** All lots of the sale, in running order. */
  readonly lots: readonly PaperLot[];
  /** A word of the address, or null. */
  readonly word: (name: string) => string | null;
}

/** The sale that the address names with its lots as they stand now; a problem where there is no such sale. */
export async function paperScene(request: Request): Promise<Result<PaperScene>> {
  const allowed = await staffBook();
  if (!allowed.ok) return allowed;
  const book = allowed.value;
  const words = new URL(request.url).searchParams;
  const sale = saleOfAddress(book, words.get('sale') ?? undefined);
  if (!sale) return refuse('unknown', 'There is no such sale in the book.', 'sale');
  const ground = paperGround(book, sale, today(book));
  const word = (name: string) => words.get(name);
  return { ok: true, value: { book, sale, ground, lots: paperLots(book, sale), word } };
}

interface Lists {
  /** The start of the file's name; the sale is put behind it. */
  readonly name: string;
  readonly none: string;
  readonly make: (scene: PaperScene) => readonly ListPaper[];
}

/** Answers a route whose papers are lists. */
export async function answerLists(request: Request, { name, none, make }: Lists): Promise<Response> {
  const scene = await paperScene(request);
  if (!scene.ok) return problem(scene, 404);
  const { book, sale } = scene.value;
  return answerPapers({ book, papers: make(scene.value), name: `${name}-${sale.id}`, none });
}
