/** The worker's side: draws one piece of work after another, and says of each how far it is. */
import type { MessagePort } from 'node:worker_threads';
import { move } from 'piscina';
import { renderPieces } from './draw.ts';
import type { Paper } from './kinds.ts';
import type { PaperSize } from './styles.ts';

export interface Work {
  readonly sheets: readonly Paper[];
  readonly size: PaperSize;
  /** Takes how many sheets are done, after each few of them. */
  readonly progress: MessagePort;
}

export default async function draw({ sheets, size, progress }: Work): Promise<unknown> {
  try {
    return move(await renderPieces(sheets, size, (done) => progress.postMessage(done)));
  } finally {
    progress.close();
  }
}
