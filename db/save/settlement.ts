import type { CorrectionSheet } from '#lib/payout/correction.ts';
import type { SettlementSheet } from '#lib/sheet/model.ts';
import type { Scene } from '../command.ts';
import { canonical } from '../log.ts';
import { insertRow } from '../rows.ts';
import { settlement } from '../schema/index.ts';

export interface IssuedPlace {
  readonly saleId: number;
  readonly sellerId: number;
  readonly number: number;
  /** The row of the sheet that this one corrects, or null. */
  readonly correctsId: number | null;
}

/** Freezes a sheet as RFC 8785 text, so that the same sheet is the same bytes on every machine; gives the row's id. */
export function saveSettlement(scene: Scene, place: IssuedPlace, sheet: SettlementSheet | CorrectionSheet): number {
  const row = { ...place, model: canonical(sheet), issuedAt: scene.at, line: scene.line };
  return insertRow(scene.book, settlement, row);
}
