import type { Pieces } from '#lib/drawer/denominations.ts';
import type { DrawerKind } from '#lib/drawer/reckon.ts';
import type { Cents } from '#lib/money.ts';
import type { CommandContext } from '../command.ts';
import { insertRow } from '../rows.ts';
import { drawerEntry, drawerPiece } from '../schema/index.ts';

export interface DrawerFields {
  readonly saleId: number;
  readonly kind: DrawerKind;
  readonly checksCents: Cents | null;
  readonly cardsCents: Cents | null;
  readonly otherCents: Cents | null;
  readonly note: string;
  /** The entry that this row takes back, or null. */
  readonly voidsId: number | null;
}

/** Adds an entry of the drawer with its notes and coins; gives the row's id. */
export function saveDrawerEntry(context: CommandContext, fields: DrawerFields, pieces: readonly Pieces[]): number {
  const { book, at, line } = context;
  const entryId = insertRow(book, drawerEntry, { ...fields, at, line });
  for (const one of pieces) insertRow(book, drawerPiece, { entryId, ...one, line });
  return entryId;
}
