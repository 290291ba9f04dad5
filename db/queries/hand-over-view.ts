/** The lots of a buyer as they lie on the table or have gone: a finished view for handing them over. */
import { piecesOf } from '#lib/buyer/decide-handover.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { quantityInWords } from '#lib/lot-words.ts';
import { type MendableTag, mendableTags } from '#lib/mendable-tags.ts';
import type { SheetTag } from '#lib/sheet/input.ts';
import type { Book } from '../open.ts';
import { buyerFile } from './buyer-files.ts';
import { newestHandovers } from './handed.ts';

export interface HandOverLot {
  readonly lotNo: LotNo;
  readonly goods: string;
  readonly quantity: string;
  /** A lot by weight without a count is one. */
  readonly pieces: number;
  /** Those on its pieces: a tag that was replaced is on none. */
  readonly tags: number;
  readonly tagList: readonly MendableTag[];
  /** How many of them await a replacement. */
  readonly waiting: number;
}

export interface GoneLot extends HandOverLot {
  readonly takenBy: string;
  readonly at: string;
  readonly worker: string;
  /** The buyer it went to, where a correction has named another since; otherwise null. */
  readonly wentTo: number | null;
}

export interface HandOverView {
  readonly here: readonly HandOverLot[];
  readonly gone: readonly GoneLot[];
}

function tagsOf(own: readonly SheetTag[]): Pick<HandOverLot, 'tags' | 'tagList' | 'waiting'> {
  const tagList = mendableTags(own);
  const waiting = own.filter(({ mended }) => mended?.by === null).length;
  const good = own.filter(({ condition }) => condition !== 'broken').length;
  return { tags: good + waiting, tagList, waiting };
}

/** The buyer's lots, or undefined where the sale has no such number. */
export function handOverView(book: Book, saleId: number, buyerNo: number): HandOverView | undefined {
  const file = buyerFile(book, saleId, buyerNo);
  if (!file) return undefined;
  const newest = newestHandovers(book, saleId, { buyerNo });
  const names = new Map(file.goods.map(({ goods, name }) => [goods, name]));
  const lots = file.lots.map((lot) => ({
    lotNo: lot.lotNo,
    goods: names.get(lot.goods) ?? lot.goods,
    quantity: quantityInWords(lot),
    pieces: piecesOf([lot]),
    ...tagsOf(file.tags.filter(({ lotNo }) => lotNo === lot.lotNo)),
  }));
  const gone = lots.flatMap((lot) => {
    const row = newest.get(lot.lotNo);
    if (row?.kind !== 'handed') return [];
    const { takenBy, at, worker } = row;
    return [{ ...lot, takenBy, at, worker, wentTo: row.buyerNo === buyerNo ? null : row.buyerNo }];
  });
  const out = new Set(gone.map(({ lotNo }) => lotNo));
  return { here: lots.filter(({ lotNo }) => !out.has(lotNo)), gone };
}
