import type { Sale } from '#lib/facts.ts';
import { formatMoney } from '#lib/money.ts';

/** The text of `sale.json`; rates stand in it as they were typed. */
export function saleText({ terms, ...sale }: Sale): string {
  const value = {
    name: sale.name,
    held_on: sale.heldOn,
    venue: sale.venue,
    season: sale.season,
    season_closes_on: sale.seasonClosesOn,
    region: sale.region,
    currency: sale.currency,
    bidding: sale.bidding,
    terms: {
      commission: terms.commission,
      commission_overrides: terms.commissionOverrides,
      commission_min: formatMoney(terms.commissionMinCents),
      seller_number_fee: formatMoney(terms.sellerNumberFeeCents),
      lot_fee: formatMoney(terms.lotFeeCents),
      no_sale: { flat: formatMoney(terms.noSaleFlatCents), pct_of_minimum: terms.noSalePctOfMinimum },
      premium_pct: terms.premiumPct,
      tax_pct: terms.taxPct,
      price_step: formatMoney(terms.priceStepCents),
      guests_may_sell: terms.guestsMaySell,
      dues: formatMoney(terms.duesCents),
    },
  };
  return `${JSON.stringify(value, null, 2)}\n`;
}
