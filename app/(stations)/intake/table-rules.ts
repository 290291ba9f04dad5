/** What of a sale's terms the check-in table goes by. */
import type { SaleRow } from '#db/queries/find.ts';
import { cents, formatMoney } from '#lib/money.ts';

export interface TableRules {
  readonly saleId: number;
  /** ISO 8601 date of the sale. */
  readonly heldOn: string;
  /** The sale's dues as they would be typed, such as 25.00; empty where it takes none. */
  readonly dues: string;
  /** The day to which dues are taken, or null where they run for a year. */
  readonly duesUntil: string | null;
}

export function tableRules({ id, heldOn, duesCents, duesUntil }: SaleRow): TableRules {
  return { saleId: id, heldOn, duesUntil, dues: duesCents === 0 ? '' : formatMoney(cents(duesCents)) };
}
