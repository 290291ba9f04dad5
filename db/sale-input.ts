/**
 * A sale and its terms as `sale.json` spells them. The exchange folder and the command that plans a sale read the
 * same schema, so that a sale set up on a screen and one read from a folder cannot mean different things.
 */
import { z } from 'zod';
import { parseCurrency, parseRegion } from '#lib/codes.ts';
import type { Sale } from '#lib/facts.ts';
import { rate, ZERO } from '#lib/money.ts';
import { amount, date, dateOrNull, flag, percentage, readBy, someText, text } from './inputs.ts';

const rates = z.strictObject({ member: percentage, guest: percentage });

const termsInput = z.strictObject({
  commission: rates,
  commission_overrides: z.record(z.string().max(60), rates).default({}),
  commission_min: amount.default(ZERO),
  seller_number_fee: amount.default(ZERO),
  lot_fee: amount.default(ZERO),
  no_sale: z
    .strictObject({ flat: amount.default(ZERO), pct_of_minimum: percentage.default(rate('0')) })
    .default({ flat: ZERO, pct_of_minimum: rate('0') }),
  premium_pct: percentage.default(rate('0')),
  tax_pct: percentage.default(rate('0')),
  price_step: amount.default(ZERO),
  guests_may_sell: flag.default(true),
  dues: amount.default(ZERO),
});

export const saleInput = z.strictObject({
  name: someText,
  held_on: date,
  venue: text,
  season: someText,
  season_closes_on: dateOrNull.nullable().default(null),
  region: readBy(parseRegion),
  currency: readBy(parseCurrency),
  bidding: z.enum(['floor', 'sealed'], { error: 'Write floor for a called sale or sealed for written bids.' }),
  terms: termsInput,
});

/** The facts behind what was read. */
export function saleOf(input: z.output<typeof saleInput>): Sale {
  const { terms } = input;
  return {
    name: input.name,
    heldOn: input.held_on,
    venue: input.venue,
    season: input.season,
    seasonClosesOn: input.season_closes_on,
    region: input.region,
    currency: input.currency,
    bidding: input.bidding,
    terms: {
      commission: terms.commission,
      commissionOverrides: terms.commission_overrides,
      commissionMinCents: terms.commission_min,
      sellerNumberFeeCents: terms.seller_number_fee,
      lotFeeCents: terms.lot_fee,
      noSaleFlatCents: terms.no_sale.flat,
      noSalePctOfMinimum: terms.no_sale.pct_of_minimum,
      premiumPct: terms.premium_pct,
      taxPct: terms.tax_pct,
      priceStepCents: terms.price_step,
      guestsMaySell: terms.guests_may_sell,
      duesCents: terms.dues,
    },
  };
}
