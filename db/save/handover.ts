import type { Scene } from '../command.ts';
import { insertRow } from '../rows.ts';
import { handover } from '../schema/index.ts';

export interface HandoverFields {
  readonly lotId: number;
  readonly buyerId: number;
  readonly kind: 'handed' | 'returned';
  /** The newest row of the same lot, or null for the first. */
  readonly replacesId: number | null;
  readonly takenBy: string;
  readonly reason: string;
}

/** Adds a row to the chain of a lot; gives its id. */
export function saveHandover(scene: Scene, fields: HandoverFields): number {
  return insertRow(scene.book, handover, { ...fields, at: scene.at, line: scene.line });
}
