/**
 * Papers as one PDF. A worker thread draws them, because drawing a page stops whoever draws it for some
 * 30 ms, and in the server that would be the clerk at the Block.
 */
import { MessageChannel } from 'node:worker_threads';
import { Piscina } from 'piscina';
import { programFile } from '#app/server/programs.mjs';
import type { Paper } from './kinds.ts';
import type { PaperSize } from './styles.ts';
import type { Work } from './work.ts';

export interface RenderOptions {
  readonly size: PaperSize;
  /** Told from time to time how many of the sheets are done. */
  readonly onProgress?: (done: number, of: number) => void;
}

/** Pages and route handlers of one server get a module each, so what they share hangs on `globalThis`. */
const shared = globalThis as { peltryPaperPool?: Piscina<Work, Uint8Array> };

/**
 * Two workers at the most, so that one sheet need not wait behind a pile of them and a hall full of requests cannot
 * start fifty. Starting one takes a part of a second, so each is kept for a while.
 */
function pool(): Piscina<Work, Uint8Array> {
  shared.peltryPaperPool ??= new Piscina<Work, Uint8Array>({
    filename: programFile('papers'),
    minThreads: 0,
    maxThreads: 2,
    idleTimeout: 60_000,
    // A worker that waits for its next work must still be able to end.
    atomics: 'disabled',
    env: { ...process.env, NODE_ENV: 'production' },
    // Left to itself a worker lets its heap grow with the pile, although each piece is let go of.
    resourceLimits: { maxOldGenerationSizeMb: 256, maxYoungGenerationSizeMb: 16 },
  });
  return shared.peltryPaperPool;
}

/**
 * Draws the papers in the order given, also of different kinds, each beginning on a page of its own.
 * @returns the bytes of one PDF. @throws RangeError without sheets; Error naming the papers of a piece when one cannot be drawn.
 */
export async function renderSheets(sheets: readonly Paper[], { size, onProgress }: RenderOptions): Promise<Uint8Array> {
  if (sheets.length === 0) throw new RangeError('there is no sheet to draw');
  const { port1: heard, port2: progress } = new MessageChannel();
  let done = 0;
  const tell = (count: number) => {
    if (count > done) onProgress?.(count, sheets.length);
    done = count;
  };
  heard.on('message', tell).unref();
  try {
    const bytes = await pool().run({ sheets, size, progress }, { transferList: [progress] });
    // The result comes by another way than what is told meanwhile, and may overtake it.
    tell(sheets.length);
    return bytes;
  } finally {
    heard.close();
  }
}
