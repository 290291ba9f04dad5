/**
 * What the Block shows: the view of the book, with the entries laid over it that this browser has made and the view
 * does not know of yet. So the clerk goes on at once, also while the line is down.
 */
import { previewAmount } from '#app/(stations)/block/preview.ts';
import type { OutboxState } from '#app/ui/outbox.ts';
import type { Entry } from '#app/ui/outbox-store.ts';
import type { BlockLot, BlockView } from '#db/queries/block-view.ts';
import type { CalledLot } from '#db/queries/called-lots.ts';
import type { Question } from '#lib/decide-outcome.ts';
import type { Measured } from '#lib/facts.ts';
import { parseMoney, ZERO } from '#lib/money.ts';

/** The input of `outcome.record` as the Block sends it. */
export interface RecordInput {
  readonly saleId: number;
  readonly lotNo: string;
  readonly kind: 'sold' | 'passed' | 'withdrawn';
  readonly price: string | null;
  readonly buyerNo: number | null;
  readonly answered: readonly Question[];
  /** When the hammer fell, where the lot is entered later from paper. */
  readonly hammerAt?: string;
}

/** The input of `outcome.choice`. */
export interface ChoiceInput {
  readonly saleId: number;
  /** The lot numbers with a plus between. */
  readonly lots: string;
  readonly price: string;
  readonly buyerNo: number;
  readonly answered: readonly Question[];
}

/** The input of `outcome.correct`. */
export interface CorrectInput extends Omit<RecordInput, 'saleId' | 'lotNo' | 'hammerAt'> {
  readonly lotId: number;
  /** The outcome that it replaces, by its number or by the key of an entry that waits itself. */
  readonly replacesId?: number;
  readonly replacesKey?: string;
  readonly reason: string;
}

export interface LastRow extends CalledLot {
  /** `book` where the view has it, `saved` where the book has answered, `waiting` where it has not. */
  readonly state: 'book' | 'saved' | 'waiting';
  /** The key of the entry that took it down here; empty where the view has it. */
  readonly key: string;
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
  /** What the book answered; null while it has not. */
  readonly value: unknown;
}

const LAST_SHOWN = 10;

/** `known` are lots beyond those of the view, each of which a person has asked for by its number. */
export function blockModel(view: BlockView, outbox: OutboxState, known: readonly BlockLot[]): BlockModel {
  const start: BlockModel = {
    ahead: view.ahead,
    last: view.last.map((row) => ({ ...row, state: 'book', key: '' })),
    cameBack: outbox.refused.filter((entry) => belongs(entry, view.saleId)),
  };
  const laid = entriesToLay(view, outbox);
  const model = laid.reduce((so, one) => layOver(so, one, known), start);
  return { ...model, last: model.last.slice(0, LAST_SHOWN) };
}

function entriesToLay(view: BlockView, { answered, entries }: OutboxState): Laid[] {
  const saved = answered
    .filter(({ line }) => line > view.line)
    .map(({ entry, value }) => ({ entry, state: 'saved' as const, value }));
  const waiting = entries.map((entry) => ({ entry, state: 'waiting' as const, value: null }));
  return [...saved, ...waiting].filter(({ entry }) => belongs(entry, view.saleId));
}

function belongs({ station, input }: Entry, saleId: number): boolean {
  if (station !== 'block') return false;
  const named = (input as { saleId?: number }).saleId;
  return named === undefined || named === saleId;
}

interface Taken {
  readonly lotId?: number;
  readonly outcomeId?: number;
  readonly outcomes?: readonly Taken[];
}

/** The number of a lot's outcome in the book's answer to one lot or to several; 0 while there is none. */
function outcomeIdOf({ value }: Laid, lotId: number): number {
  const taken = value as Taken | null;
  return [taken, ...(taken?.outcomes ?? [])].find((one) => one?.lotId === lotId)?.outcomeId ?? 0;
}

function layOver(model: BlockModel, laid: Laid, known: readonly BlockLot[]): BlockModel {
  switch (laid.entry.command) {
    case 'outcome.record':
      return recorded(model, laid, laid.entry.input as RecordInput);
    case 'outcome.choice':
      return lotsOfChoice(laid.entry.input as ChoiceInput).reduce((so, one) => recorded(so, laid, one), model);
    case 'outcome.correct':
      return corrected(model, laid, laid.entry.input as CorrectInput);
    case 'lot.skip':
      return { ...model, ahead: skipped(model.ahead, laid.entry.input as SkipInput) };
    case 'lot.place':
      return { ...model, ahead: placed(model.ahead, laid.entry.input as PlaceInput, known) };
    default:
      return model;
  }
}

/** A choice as the lots that it is made of. */
export function lotsOfChoice({ lots, ...said }: ChoiceInput): RecordInput[] {
  return lots.split('+').map((lotNo) => ({ ...said, lotNo, kind: 'sold' }));
}

function recorded(model: BlockModel, laid: Laid, input: RecordInput): BlockModel {
  const { state, entry } = laid;
  const lot = model.ahead.find(({ lotNo }) => lotNo === input.lotNo);
  if (!lot) return model;
  const row: LastRow = {
    ...{
      lotId: lot.lotId,
      lotNo: lot.scene.lotNo as LastRow['lotNo'],
      goodsName: lot.goodsName,
      sellerNo: lot.sellerNo,
    },
    ...{ corrected: false, reason: '', remarks: input.answered, worker: '', at: '', key: entry.key },
    outcomeId: outcomeIdOf(laid, lot.lotId),
    ...broughtBy(input, lot),
    measured: lot,
    state,
  };
  const ahead = model.ahead.filter((one) => one !== lot);
  return { ...model, ahead, last: [row, ...model.last.filter(({ lotId }) => lotId !== lot.lotId)] };
}

function corrected(model: BlockModel, laid: Laid, input: CorrectInput): BlockModel {
  const { state, entry } = laid;
  const last = model.last.map((row) => {
    if (row.lotId !== input.lotId) return row;
    const brought = broughtBy(input, row.measured);
    const outcomeId = outcomeIdOf(laid, row.lotId);
    return { ...row, ...brought, state, key: entry.key, outcomeId, corrected: true, reason: input.reason };
  });
  return { ...model, last };
}

type Brought = Pick<CalledLot, 'kind' | 'priceCents' | 'buyerNo' | 'amountCents'>;

function broughtBy({ kind, price, buyerNo }: Pick<RecordInput, 'kind' | 'price' | 'buyerNo'>, lot: Measured): Brought {
  const read = price === null ? null : parseMoney(price);
  const priceCents = read?.ok ? read.value : null;
  const amountCents = priceCents === null ? ZERO : previewAmount(priceCents, lot);
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

interface PlaceInput {
  readonly lotNo: string;
  /** The lot before which it comes; null puts it up now. */
  readonly before?: string | null;
}

type Lots = readonly BlockLot[];

function placed(ahead: Lots, { lotNo, before = null }: PlaceInput, known: Lots): Lots {
  const lot = [...ahead, ...known].find((one) => one.lotNo === lotNo);
  const others = ahead.filter((lot) => lot.lotNo !== lotNo);
  const at = before === null ? 0 : others.findIndex((lot) => lot.lotNo === before);
  // A place that is farther behind is not known here: the next view has it.
  if (at < 0 || !lot) return ahead;
  return [...others.slice(0, at), lot, ...others.slice(at)];
}
