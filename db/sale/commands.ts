import * as z from 'zod';
import { defineCommand, defineSaleCommand, findSale } from '#db/book/command.ts';
import { goodsByCode, type SaleRow } from '#db/book/find.ts';
import { columnShapeOf, dateOrNull, percentage, rowId, text } from '#db/book/inputs.ts';
import type { Book } from '#db/book/open.ts';
import { addRow } from '#db/book/rows.ts';
import { goods as goodsTable } from '#db/schema/index.ts';
import { factsOfCells, pick, writtenCellsOf } from '#lib/field/fields.ts';
import { ZERO } from '#lib/money/money.ts';
import { rate } from '#lib/money/rate.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { decideFixed, decideTermsOpen } from '#lib/sale/amend.ts';
import type { Sale } from '#lib/sale/facts.ts';
import { SALE_FIELDS, TERM_FIELDS } from '#lib/sale/terms-fields.ts';
import { saleOfRow } from './facts.ts';
import { goodsInput } from './goods-commands.ts';
import { isPlanned } from './queries.ts';
import { amendSale, copyCustoms, copyGoods, saveSale } from './save.ts';
import { saleSoFar } from './views.ts';

const rates = z.strictObject({ member: percentage, guest: percentage });
const { no_sale_flat: flat, no_sale_pct_of_minimum: pct_of_minimum, ...fees } = columnShapeOf(TERM_FIELDS);

const termsInput = z.strictObject({
  commission: rates,
  commission_overrides: z.record(z.string().max(60), rates).default({}),
  ...fees,
  no_sale: z.strictObject({ flat, pct_of_minimum }).default({ flat: ZERO, pct_of_minimum: rate('0') }),
});

/**
 * A sale and its terms as `sale.json` spells them. The exchange folder and the command that plans a sale read the same
 * schema, so that a sale set up on a screen and one read from a folder cannot mean different things.
 */
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
  const written = writtenCellsOf(TERM_FIELDS, rest);
  const { commission_min, seller_number_fee, lot_fee, no_sale_flat, no_sale_pct_of_minimum, ...others } = written;
  const value = {
    ...writtenCellsOf(SALE_FIELDS, day),
    season_closes_on: day.seasonClosesOn,
    terms: {
      ...{ commission, commission_overrides: commissionOverrides, commission_min, seller_number_fee, lot_fee },
      no_sale: { flat: no_sale_flat, pct_of_minimum: no_sale_pct_of_minimum },
      ...others,
    },
  };
  return `${JSON.stringify(value, null, 2)}\n`;
}

/** Plans a sale: its terms, and the goods it takes. */
export const salePlan = defineCommand({
  name: 'sale.plan',
  summary: 'Adds a sale with its terms and its goods, in the stage “planned”.',
  logLabel: 'Sale planned',
  stations: ['office'],
  input: z.strictObject({ sale: saleInput, goods: z.array(goodsInput).max(200) }),
  run(context, planned) {
    const facts = saleOf(planned.sale);
    if (isPlanned(context.book, facts)) {
      const what = `There is already a sale called ${facts.name} on ${facts.heldOn}`;
      return refuse('taken', `${what}: give this one another name, or another day.`, 'sale.name');
    }
    const codes = new Set(planned.goods.map(({ goods }) => goods));
    if (codes.size < planned.goods.length) {
      return refuse('taken', 'Two goods have the same short name: give each its own.', 'goods');
    }
    const stray = Object.keys(facts.terms.commissionOverrides).find((code) => !codes.has(code));
    if (stray !== undefined) {
      const message = `The commission names ${stray}, which is not among the goods: add it there.`;
      return refuse('unknown', message, 'sale.terms');
    }
    const saleId = saveSale(context, facts, 'planned');
    for (const goods of planned.goods) addRow(context, goodsTable, { saleId, ...goods });
    return accept({ saleId });
  },
});

const OF_ITS_OWN = pick(SALE_FIELDS, ['name', 'heldOn', 'venue', 'season']);

/** Plans a sale under the terms of an earlier one, with its goods and customs. The earlier one stays as it is. */
export const saleNext = defineCommand({
  name: 'sale.next',
  summary: 'Plans a sale with the terms, the goods and the customs of an earlier one.',
  logLabel: 'Sale planned like an earlier one',
  stations: ['office'],
  input: z.strictObject({
    likeSaleId: rowId,
    ...columnShapeOf(OF_ITS_OWN),
    season_closes_on: dateOrNull,
  }),
  run(context, { likeSaleId, name, held_on: heldOn, venue, season, season_closes_on: seasonClosesOn }) {
    const before = findSale(context.book, likeSaleId, 'likeSaleId');
    if (!before.ok) return before;
    if (isPlanned(context.book, { name, heldOn })) {
      const message = `There is already a sale called ${name} on ${heldOn}: choose another name or day.`;
      return refuse('taken', message, 'name');
    }
    const facts = { ...saleOfRow(context.book, before.value), name, heldOn, venue, season, seasonClosesOn };
    const saleId = saveSale(context, facts, 'planned');
    copyGoods(context, { from: before.value.id, to: saleId });
    copyCustoms(context, before.value, saleId);
    return accept({ saleId });
  },
});

export const saleAmend = defineSaleCommand({
  name: 'sale.amend',
  summary: 'Changes a sale and its terms, until its first settlement sheet or invoice is issued.',
  logLabel: 'Sale amended',
  stations: ['office'],
  input: z.strictObject({ saleId: rowId, sale: saleInput, reason: text }),
  run(context, { saleId, sale: said, reason }) {
    const { sale: row } = context;
    const facts = saleOf(said);
    const soFar = saleSoFar(context.book, row);
    const open = decideTermsOpen(soFar, reason);
    if (!open.ok) return open;
    const fixed = decideFixed(row, facts, soFar);
    if (!fixed.ok) return fixed;
    const fits = decideFits(context.book, row, facts);
    if (!fits.ok) return fits;
    amendSale(context, saleId, facts);
    return accept({ saleId });
  },
});

/** What else in the book the new words must agree with. */
function decideFits(book: Book, row: SaleRow, { name, heldOn, terms }: Sale): Result<null> {
  if (isPlanned(book, { name, heldOn }, row.id)) {
    return refuse('taken', `Another sale is called ${name} on ${heldOn}: choose another name or day.`, 'sale.name');
  }
  if (row.duesUntil !== null && row.duesUntil < heldOn) {
    const message = `Dues taken here are paid to ${row.duesUntil}, before that day: set a later day for them first.`;
    return refuse('malformed', message, 'sale.held_on');
  }
  const stray = Object.keys(terms.commissionOverrides).find((code) => !goodsByCode(book, row.id, code));
  if (stray === undefined) return accept(null);
  return refuse('unknown', `The commission names ${stray}, which is not among the goods: add it there.`, 'sale.terms');
}
