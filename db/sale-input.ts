/**
 * A sale and its terms as `sale.json` spells them. The exchange folder and the command that plans a sale read the
 * same schema, so that a sale set up on a screen and one read from a folder cannot mean different things.
 */
import { z } from 'zod';
import type { Sale } from '#lib/facts.ts';
import { factsOfCells, typedCellsOf, typedOf } from '#lib/field/fields.ts';
import { rate, ZERO } from '#lib/money.ts';
import { SALE_FIELDS, TERM_FIELDS } from '#lib/sale/terms-fields.ts';
import { columnShapeOf, dateOrNull, percentage } from './inputs.ts';

const rates = z.strictObject({ member: percentage, guest: percentage });
const { no_sale_flat: flat, no_sale_pct_of_minimum: pct_of_minimum, ...fees } = columnShapeOf(TERM_FIELDS);

const termsInput = z.strictObject({
  commission: rates,
  commission_overrides: z.record(z.string().max(60), rates).default({}),
  ...fees,
  no_sale: z.strictObject({ flat, pct_of_minimum }).default({ flat: ZERO, pct_of_minimum: rate('0') }),
});

export const saleInput = z.strictObject({
  ...columnShapeOf(SALE_FIELDS),
  season_closes_on: dateOrNull.nullable().default(null),
  bidding: z.enum(['floor', 'sealed'], { error: 'Write floor for a called sale or sealed for written bids.' }),
  terms: termsInput,
});

/** The facts behind what was read. */
export function saleOf({ terms, ...day }: z.output<typeof saleInput>): Sale {
  const { commission, commission_overrides: commissionOverrides, no_sale: noSale, ...fees } = terms;
  const cells = { ...fees, no_sale_flat: noSale.flat, no_sale_pct_of_minimum: noSale.pct_of_minimum };
  return {
    ...factsOfCells(SALE_FIELDS, day),
    terms: { commission, commissionOverrides, ...factsOfCells(TERM_FIELDS, cells) },
  };
}

/** The text of `sale.json`; rates stand in it as they were typed. */
export function saleText({ terms, ...day }: Sale): string {
  const { commission, commissionOverrides, ...rest } = terms;
  const written = typedCellsOf(TERM_FIELDS, typedOf(TERM_FIELDS, rest));
  const { commission_min, seller_number_fee, lot_fee, no_sale_flat, no_sale_pct_of_minimum, ...others } = written;
  const value = {
    ...typedCellsOf(SALE_FIELDS, typedOf(SALE_FIELDS, day)),
    season_closes_on: day.seasonClosesOn,
    terms: {
      ...{ commission, commission_overrides: commissionOverrides, commission_min, seller_number_fee, lot_fee },
      no_sale: { flat: no_sale_flat, pct_of_minimum: no_sale_pct_of_minimum },
      ...others,
    },
  };
  return `${JSON.stringify(value, null, 2)}\n`;
}
