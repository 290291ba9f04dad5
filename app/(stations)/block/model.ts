/**
 * What the Block shows: the view of the book, with the entries laid over it that this browser has made and the view
 * does not know of yet. So the clerk goes on at once, also while the line is down.
 */
import type { OutboxState } from '#app/ui/outbox.ts';
import type { Entry } from '#app/ui/outbox-store.ts';
import type { BlockLot, BlockView } from '#db/queries/block-view.ts';
import type { CalledLot } from '#db/queries/called-lots.ts';
import type { Question } from '#lib/decide-outcome.ts';
import { cents, parseMoney, ZERO } from '#lib/money.ts';
import { lotAmount, type Measured } from '#lib/quantity.ts';

/** The input of `outcome.record` as the Block sends it. */
export interface RecordInput {
  readonly saleId: number;
  readonly lotNo: string;
  readonly kind: 'sold' | 'passed' | 'withdrawn';
  readonly price: string | null;
  readonly buyerNo: number | null;
  readonly answered: readonly Question[];
}

/** The input of `outcome.correct`. */
export interface CorrectInput extends Omit<RecordInput, 'saleId' | 'lotNo'> {
  readonly lotId: number;
  readonly replacesId: number;
  readonly reason: string;
}

export interface LastRow extends CalledLot {
  /** `book` where the view has it, `saved` where the book has answered, `waiting` where it has not. */
  readonly state: 'book' | 'saved' | 'waiting';
}

export interface BlockModel {
  readonly ahead: readonly BlockLot[];
  readonly last: readonly LastRow[];
  /** Refused entries of this sale's Block, oldest first. */
  readonly cameBack: readonly Entry[];
}

interface Laid {
  readonly entry: Entry;
  readonly state: 'saved' | 'waiting';
  readonly outcomeId: number;
}

const LAST_SHOWN = 10;

export function blockModel(view: BlockView, outbox: OutboxState): BlockModel {
  const start: BlockModel = {
    ahead: view.ahead,
    last: view.last.map((row) => ({ ...row, state: 'book' })),
    cameBack: outbox.refused.filter((entry) => belongs(entry, view.saleId)),
  };
  const laid = entriesToLay(view, outbox);
  const model = laid.reduce((so, one) => layOver(so, one), start);
  return { ...model, last: model.last.slice(0, LAST_SHOWN) };
}

function entriesToLay(view: BlockView, { answered, entries }: OutboxState): Laid[] {
  const saved = answered
    .filter(({ line }) => line > view.line)
    .map(({ entry, value }) => ({ entry, state: 'saved' as const, outcomeId: outcomeIdOf(value) }));
  const waiting = entries.map((entry) => ({ entry, state: 'waiting' as const, outcomeId: 0 }));
  return [...saved, ...waiting].filter(({ entry }) => belongs(entry, view.saleId));
}

function belongs({ station, input }: Entry, saleId: number): boolean {
  if (station !== 'block') return false;
  const named = (input as { saleId?: number }).saleId;
  return named === undefined || named === saleId;
}

function outcomeIdOf(value: unknown): number {
  return (value as { outcomeId?: number } | null)?.outcomeId ?? 0;
}

function layOver(model: BlockModel, laid: Laid): BlockModel {
  switch (laid.entry.command) {
    case 'outcome.record':
      return recorded(model, laid, laid.entry.input as RecordInput);
    case 'outcome.correct':
      return corrected(model, laid, laid.entry.input as CorrectInput);
    case 'lot.skip':
      return { ...model, ahead: skipped(model.ahead, laid.entry.input as SkipInput) };
    case 'lot.place':
      return { ...model, ahead: inFront(model.ahead, (laid.entry.input as RecordInput).lotNo) };
    default:
      return model;
  }
}

function recorded(model: BlockModel, { state, outcomeId }: Laid, input: RecordInput): BlockModel {
  const lot = model.ahead.find(({ lotNo }) => lotNo === input.lotNo);
  if (!lot) return model;
  const row: LastRow = {
    ...{
      lotId: lot.lotId,
      lotNo: lot.scene.lotNo as LastRow['lotNo'],
      goodsName: lot.goodsName,
      sellerNo: lot.sellerNo,
    },
    ...{ outcomeId, corrected: false, reason: '', remarks: input.answered, worker: '', at: '' },
    ...broughtBy(input, lot),
    measured: lot,
    state,
  };
  const ahead = model.ahead.filter((one) => one !== lot);
  return { ...model, ahead, last: [row, ...model.last.filter(({ lotId }) => lotId !== lot.lotId)] };
}

function corrected(model: BlockModel, { state, outcomeId }: Laid, input: CorrectInput): BlockModel {
  const last = model.last.map((row) => {
    if (row.lotId !== input.lotId) return row;
    const brought = broughtBy(input, row.measured);
    return { ...row, ...brought, state, outcomeId: outcomeId || row.outcomeId, corrected: true, reason: input.reason };
  });
  return { ...model, last };
}

type Brought = Pick<CalledLot, 'kind' | 'priceCents' | 'buyerNo' | 'amountCents'>;

function broughtBy({ kind, price, buyerNo }: Omit<RecordInput, 'saleId' | 'lotNo'>, lot: Measured): Brought {
  const read = price === null ? null : parseMoney(price);
  const priceCents = read?.ok ? read.value : null;
  const amountCents = priceCents === null ? ZERO : lotAmount(cents(priceCents), lot);
  return { kind, priceCents, buyerNo, amountCents };
}

interface SkipInput {
  readonly lotNo: string;
  readonly wholeSeller: boolean;
}

function skipped(ahead: readonly BlockLot[], { lotNo, wholeSeller }: SkipInput): BlockLot[] {
  const sellerNo = ahead.find((lot) => lot.lotNo === lotNo)?.sellerNo;
  const goes = (lot: BlockLot) => lot.lotNo === lotNo || (wholeSeller && lot.sellerNo === sellerNo);
  return [...ahead.filter((lot) => !goes(lot)), ...ahead.filter(goes)];
}

function inFront(ahead: readonly BlockLot[], lotNo: string): BlockLot[] {
  return [...ahead.filter((lot) => lot.lotNo === lotNo), ...ahead.filter((lot) => lot.lotNo !== lotNo)];
}
