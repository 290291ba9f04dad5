import type { LotCard } from '#db/queries/lot-card.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

/** Asks the server for one lot of a sale: as it is called, what was taken down for it, and what that touches. */
export async function askLot(saleId: number, lotNo: string): Promise<Result<LotCard>> {
  try {
    const address = `/api/views/lot?sale=${saleId}&lot=${encodeURIComponent(lotNo)}`;
    const answer = await fetch(address, { signal: AbortSignal.timeout(8000) });
    if (answer.ok) return accept((await answer.json()) as LotCard);
    if (answer.status === 404) {
      return refuse('unknown', `There is no lot ${lotNo}: check the number on the ticket.`, 'lotNo');
    }
  } catch {
    // No answer is told like an answer that says nothing.
  }
  return refuse('unknown', 'The server does not answer just now: try again when it does.', 'lotNo');
}
