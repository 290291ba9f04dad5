/** What a paper worker is given, and what it says back. */
import type { Paper } from './kinds.ts';
import type { PaperSize } from './look.ts';

export interface Work {
  readonly sheets: readonly Paper[];
  readonly size: PaperSize;
}

export type Word =
  | { readonly kind: 'progress'; readonly done: number }
  | { readonly kind: 'finished'; readonly bytes: Uint8Array }
  | { readonly kind: 'failed'; readonly message: string };
