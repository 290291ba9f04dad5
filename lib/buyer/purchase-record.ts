/**
 * Makes a buyer's purchase record: one row a lot with what a fur buyer's own book asks for. The columns follow State
 * rules read for `docs/trade.md`: Ohio R.C. 1533.24; 040-30 Wyo. Code R. § 30-6; 7 Del. C. § 532.
 */
import { longDate } from '#lib/date/date.ts';
import type { InvoiceRow } from '#lib/invoice/invoice.ts';
import type { PurchaseRecord, PurchaseRow, PurchaseSeller } from '#lib/invoice/model.ts';
import { invoiceOf, paperHead } from '#lib/invoice/paper.ts';
import { amountEach } from '#lib/lot/amount.ts';
import { formatMoney, sumCents, ZERO } from '#lib/money/money.ts';
import { NO_COUNTY } from '#lib/paper/list.ts';
import { countWords, withoutFormula } from '#lib/result/text.ts';
import type { TagCondition } from '#lib/sale/facts.ts';
import { addressLines, blank, clean, figure, licenceWords, priceFor, quantityFor } from '#lib/settlement/spelling.ts';
import type { BoughtLot, BuyerFile } from './buyer.ts';

const RECORD_CAUTION = `${NO_COUNTY} What a fur buyer’s book must hold, and by when it is sent in, differs by State and year: check with your wildlife agency.`;

const NOT_EXPORTABLE = 'not exportable until replaced';

export function purchaseRecord(file: BuyerFile, drawnOn: string): PurchaseRecord {
  const invoice = invoiceOf(file);
  const rows = invoice.rows.map((row) => rowOf(file, row));
  return {
    paper: 'purchase-record',
    version: 2,
    title: 'Purchase record',
    issuedOn: drawnOn,
    issuedWords: `Drawn ${longDate(drawnOn)}`,
    ...paperHead(file),
    rows,
    kinds: kindsOf(rows),
    total: figure(invoice.amountCents),
    remarks: remarksOf(rows),
    caution: RECORD_CAUTION,
  };
}

function rowOf(file: BuyerFile, row: InvoiceRow): PurchaseRow {
  const { sale, goods, lots } = file;
  const lot = lots.find(({ lotNo }) => lotNo === row.lotNo);
  if (lot === undefined) throw new RangeError(`lot ${row.lotNo} is not in the file`);
  const kind = goods.find((one) => one.goods === lot.goods);
  return {
    lotNo: row.lotNo,
    date: sale.heldOn,
    dateWords: longDate(sale.heldOn),
    sellerNo: row.sellerNo,
    sellers: sellersOf(file, row.sellerNo),
    goods: clean(kind?.name ?? lot.goods),
    scientificName: clean(kind?.scientificName ?? ''),
    by: row.by,
    count: row.count,
    quantity: quantityFor(row.by === 'lot' ? { ...lot, by: 'piece' } : lot),
    price: { cents: row.priceCents, ...priceFor(row.priceCents, row.by) },
    each: eachOf(row),
    amount: figure(row.amountCents),
    takenIn: lot.takenIn === '' ? sale.region : lot.takenIn,
    tags: tagsOf(file, lot),
  };
}

/** A lot sold for one price comes to so much a piece, rounded half up to the cent. */
function eachOf({ by, count, priceCents }: InvoiceRow): PurchaseRow['each'] {
  return by === 'lot' && count !== null && count > 1 ? figure(amountEach(priceCents, count)) : blank(ZERO);
}

function sellersOf({ sellers, people }: BuyerFile, sellerNo: number): PurchaseSeller[] {
  const partners = sellers.find((one) => one.sellerNo === sellerNo)?.partners ?? [];
  return partners.map(({ personId }) => {
    const person = people.find((one) => one.personId === personId);
    if (person === undefined) throw new RangeError(`seller number ${sellerNo}: no particulars of ${personId}`);
    return { name: clean(person.name), address: addressLines(person), licence: licenceWords('Licence', person) };
  });
}

/** A broken tag stays on the record: replaced where the lot has a good tag for each piece all the same. */
function tagsOf({ tags }: BuyerFile, { lotNo, count }: BoughtLot): PurchaseRow['tags'] {
  const own = tags.filter((tag) => tag.lotNo === lotNo);
  // One that broke after the hammer counts for its piece here, or those that broke before it would seem bare.
  const atTheHammer = own.filter(({ condition, mended }) => condition !== 'broken' || mended?.by === null).length;
  const replacedBefore = atTheHammer >= (count ?? 0);
  return own.map(({ tag, condition, mended }) => {
    const replaced = mended ? mended.by !== null : replacedBefore;
    const mark = markOf(condition, replaced, mended?.by ?? null);
    return { tag, exportable: condition !== 'broken' || replaced, words: mark === '' ? tag : `${tag} (${mark})` };
  });
}

function markOf(condition: TagCondition, replaced: boolean, by: string | null): string {
  if (condition === 'intact') return '';
  if (condition === 'replacement') return 'replacement';
  if (!replaced) return NOT_EXPORTABLE;
  return by === null ? 'broken, replaced' : `broken, replaced by ${by}`;
}

function kindsOf(rows: readonly PurchaseRow[]): PurchaseRecord['kinds'] {
  const kinds = [...new Set(rows.map(({ goods }) => goods))];
  return kinds.map((goods) => {
    const own = rows.filter((row) => row.goods === goods);
    const pieces = own.reduce((sum, { count }) => sum + (count ?? 0), 0);
    const lots = countWords(own.length, 'lot');
    const words = pieces === 0 ? lots : `${lots}, ${countWords(pieces, 'piece')}`;
    return { goods, words, amount: figure(sumCents(own.map(({ amount }) => amount.cents))) };
  });
}

function remarksOf(rows: readonly PurchaseRow[]): string[] {
  const broken = rows.flatMap(({ lotNo, tags }) =>
    notExportable(tags).map((tag) => `Lot ${lotNo}: tag ${tag} is ${NOT_EXPORTABLE}.`),
  );
  return broken.length === 0 ? [] : [...broken, 'An agency’s officer replaces a broken, cut or missing tag.'];
}

/** Text columns are escaped for spreadsheets; figures and dates are not. */
type Column = readonly [name: string, kind: 'text' | 'figure', cell: (row: PurchaseRow) => string];

const COLUMNS: readonly Column[] = [
  ['date', 'figure', ({ date }) => date],
  ['lot_no', 'figure', ({ lotNo }) => lotNo],
  ['seller_no', 'figure', ({ sellerNo }) => String(sellerNo)],
  ['seller', 'text', ({ sellers }) => sellers.map(({ name }) => name).join('; ')],
  ['seller_address', 'text', ({ sellers }) => sellers.map(({ address }) => address.join(', ')).join('; ')],
  ['seller_licence', 'text', ({ sellers }) => sellers.map(({ licence }) => licence).join('; ')],
  ['kind', 'text', ({ goods }) => goods],
  ['scientific_name', 'text', ({ scientificName }) => scientificName],
  ['count', 'figure', ({ count }) => (count === null ? '' : String(count))],
  ['quantity', 'figure', ({ quantity }) => quantity.figure],
  ['unit', 'text', ({ quantity }) => quantity.unit],
  ['price', 'figure', ({ price }) => formatMoney(price.cents)],
  ['price_for', 'text', ({ by }) => by],
  ['each', 'figure', ({ each }) => (each.words === '' ? '' : formatMoney(each.cents))],
  ['amount', 'figure', ({ amount }) => formatMoney(amount.cents)],
  ['taken_in', 'text', ({ takenIn }) => takenIn],
  // Its place in the buyer's own book; nobody can say it yet.
  ['county', 'text', () => ''],
  ['tags', 'text', ({ tags }) => tags.map(({ tag }) => tag).join('; ')],
  ['not_exportable', 'text', ({ tags }) => notExportable(tags).join('; ')],
];

function notExportable(tags: PurchaseRow['tags']): string[] {
  return tags.filter(({ exportable }) => !exportable).map(({ tag }) => tag);
}

export const PURCHASE_COLUMNS: readonly string[] = COLUMNS.map(([name]) => name);

export function purchaseCells({ rows }: PurchaseRecord): string[][] {
  return rows.map((row) => COLUMNS.map(([, kind, cell]) => (kind === 'text' ? withoutFormula(cell(row)) : cell(row))));
}
