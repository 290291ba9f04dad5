import type { Paper } from '#app/papers/kinds.ts';
import { problem } from '#app/problem.ts';
import { alignmentPage, labelPages, ticketPages } from '#lib/paper/labels.ts';
import { ticketOf } from '#lib/paper/ticket.ts';
import { lotsAskedFor, readTicketRequest, type TicketRequest } from '#lib/paper/ticket-request.ts';
import { accept, type Result } from '#lib/result.ts';
import { answerPapers } from '../answer.ts';
import { type PaperScene, paperScene } from '../lists.ts';

/**
 * Lot tickets: `?sale=1` of all lots, `&seller=3` of one seller number, `&lot=12A` of one lot. `&stock=labels` on label
 * sheets beginning at label `&start=5`, moved by `&right=1.5` and `&down=-0.8` millimetres; `&stock=halves` two a page;
 * `&stock=alignment` the page that aligns a printer.
 */
export async function GET(request: Request): Promise<Response> {
  const scene = await paperScene(request);
  if (!scene.ok) return problem(scene, 404);
  const { book, sale, word } = scene.value;
  const typed = (name: string) => word(name) ?? '';
  const asked = readTicketRequest({
    ...{ stock: typed('stock'), start: typed('start'), right: typed('right'), down: typed('down') },
  });
  if (!asked.ok) return problem(asked);
  const papers = papersOf(scene.value, asked.value);
  if (!papers.ok) return problem(papers);
  return answerPapers({ book, papers: papers.value, name: `tickets-${sale.id}`, none: 'There is no lot.' });
}

function papersOf(scene: PaperScene, { stock, start, offset }: TicketRequest): Result<Paper[]> {
  const { ground, sale, word } = scene;
  if (stock === 'alignment') return accept([alignmentPage(ground, offset)]);
  const lots = lotsAskedFor(scene.lots, { saleId: sale.id, seller: word('seller') ?? '', lot: word('lot') ?? '' });
  if (!lots.ok) return lots;
  const tickets = lots.value.map((lot) => ticketOf(lot, ground));
  return accept(stock === 'halves' ? ticketPages(tickets, ground) : labelPages(tickets, ground, { start, offset }));
}
