import type { ListPaper } from '#lib/paper/list.ts';
import type { Scene } from '../command.ts';
import { canonical } from '../log.ts';
import { insertRow } from '../rows.ts';
import { closing } from '../schema/index.ts';

/** Freezes the report of a sale that was closed; gives the row's id. */
export function saveClosed(scene: Scene, saleId: number, report: ListPaper): number {
  return insertRow(scene.book, closing, { saleId, kind: 'closed', model: canonical(report), ...byWhom(scene) });
}

export function saveReopened(scene: Scene, saleId: number, reason: string): number {
  return insertRow(scene.book, closing, { saleId, kind: 'reopened', reason, ...byWhom(scene) });
}

function byWhom({ worker, at, line }: Scene) {
  return { worker, at, line };
}
