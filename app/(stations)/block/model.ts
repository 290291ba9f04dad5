/**
 * What the Block shows: the view of the book, with the entries local over it that this browser has made and the view
 * does not know of yet. So the clerk goes on at once, also while the line is down.
 */

import type { OutboxState } from '#app/ui/outbox.ts';
import { isStored } from '#app/ui/outbox-held.ts';
import type { Entry } from '#app/ui/outbox-store.ts';
import type { TypedInput } from '#app/ui/text-field.tsx';
import type { CommandName, ValueOf } from '#db/commands.ts';
import type { BlockLot, BlockView } from '#db/outcome/block-view.ts';
import type { CalledLot } from '#db/outcome/called.ts';
import { cents, readMoney, ZERO } from '#lib/money/money.ts';
import type { Measured } from '#lib/sale/facts.ts';
import { previewAmount } from './call-amount.ts';

export interface LastRow extends CalledLot {
  /** `saving` until the browser has stored it, `waiting` until the book has answered. */
  readonly state: 'saved' | 'waiting' | 'saving';
  /** The key of the entry that took it down here; empty where the view has it. */
  readonly key: string;
}

export interface BlockModel {
  readonly ahead: readonly BlockLot[];
  readonly last: readonly LastRow[];
  /** Refused entries of this sale's Block, oldest first. */
  readonly rejected: readonly Entry[];
}

interface LocalEntry {
  readonly entry: Entry;
  readonly state: LastRow['state'];
  /** What the book answered; null while it has not. */
  readonly value: ValueOf<CommandName> | null;
}

const LAST_SHOWN = 10;

/** `known` are lots beyond those of the view, each of which a person has asked for by its number. */
export function blockModel(view: BlockView, outbox: OutboxState, known: readonly BlockLot[]): BlockModel {
  const start: BlockModel = {
    ahead: view.ahead,
    last: view.last.map((row) => ({ ...row, state: 'saved', key: '' })),
    rejected: outbox.refused.filter((entry) => belongs(entry, view.saleId)),
  };
  const local = localEntries(view, outbox);
  const model = local.reduce((so, one) => applyEntry(so, one, known), start);
  return { ...model, last: model.last.slice(0, LAST_SHOWN) };
}

function localEntries(view: BlockView, { answered, entries }: OutboxState): LocalEntry[] {
  const saved = answered
    .filter(({ line }) => line > view.line)
    .map(({ entry, value }) => ({ entry, state: 'saved' as const, value }));
  const open = entries.map((entry) => ({ entry, state: isStored(entry) ? 'waiting' : 'saving', value: null }) as const);
  return [...saved, ...open].filter(({ entry }) => belongs(entry, view.saleId));
}

function belongs({ station, input }: Entry, saleId: number): boolean {
  if (station !== 'block') return false;
  return !('saleId' in input) || input.saleId === saleId;
}

/** The number of a lot's outcome in the book's answer to one lot or to several; 0 while there is none. */
function outcomeIdOf({ value }: LocalEntry, lotId: number): number {
  const taken = value && ('outcomes' in value ? value.outcomes : 'outcomeId' in value ? [value] : null);
  return taken?.find((one) => one.lotId === lotId)?.outcomeId ?? 0;
}

function applyEntry(model: BlockModel, local: LocalEntry, known: readonly BlockLot[]): BlockModel {
  const { command, input } = local.entry;
  switch (command) {
    case 'outcome.record':
      return recorded(model, local, input);
    case 'outcome.choice':
      return lotsOfChoice(input).reduce((so, one) => recorded(so, local, one), model);
    case 'outcome.correct':
      return corrected(model, local, input);
    case 'lot.skip':
      return { ...model, ahead: skipped(model.ahead, input) };
    case 'lot.place':
      return { ...model, ahead: placed(model.ahead, input, known) };
    default:
      return model;
  }
}

/** A choice as the lots that it is made of. */
function lotsOfChoice({ lots, ...said }: TypedInput<'outcome.choice'>): TypedInput<'outcome.record'>[] {
  return lots.split('+').map((lotNo) => ({ ...said, lotNo, kind: 'sold' }));
}

function recorded(model: BlockModel, local: LocalEntry, input: TypedInput<'outcome.record'>): BlockModel {
  const { state, entry } = local;
  const lot = model.ahead.find(({ lotNo }) => lotNo === input.lotNo);
  if (!lot) return model;
  const row: LastRow = {
    ...{
      lotId: lot.lotId,
      lotNo: lot.scene.lotNo as LastRow['lotNo'],
      goodsName: lot.goodsName,
      sellerNo: lot.sellerNo,
    },
    ...{ corrected: false, reason: '', remarks: input.answered ?? [], worker: '', at: '', key: entry.key },
    outcomeId: outcomeIdOf(local, lot.lotId),
    ...broughtBy(input, lot),
    measured: lot,
    state,
  };
  const ahead = model.ahead.filter((one) => one !== lot);
  return { ...model, ahead, last: [row, ...model.last.filter(({ lotId }) => lotId !== lot.lotId)] };
}

function corrected(model: BlockModel, local: LocalEntry, input: TypedInput<'outcome.correct'>): BlockModel {
  const { state, entry } = local;
  const last = model.last.map((row) => {
    if (row.lotId !== input.lotId) return row;
    const brought = broughtBy(input, row.measured);
    const outcomeId = outcomeIdOf(local, row.lotId);
    return { ...row, ...brought, state, key: entry.key, outcomeId, corrected: true, reason: input.reason };
  });
  return { ...model, last };
}

type Brought = Pick<CalledLot, 'kind' | 'priceCents' | 'fate' | 'buyerNo' | 'amountCents'>;

/** What was typed for a lot, whether it is called for the first time or put right. */
export type TypedOutcome = Pick<TypedInput<'outcome.record'>, 'kind' | 'price' | 'buyerNo'>;

function broughtBy({ kind, price, buyerNo }: TypedOutcome, lot: Measured): Brought {
  const read = price ? readMoney(price) : null;
  const priceCents = read?.ok ? read.value : null;
  const amountCents = kind !== 'sold' || priceCents === null ? ZERO : previewAmount(cents(priceCents), lot);
  return { kind, priceCents, fate: null, buyerNo: typeof buyerNo === 'number' ? buyerNo || null : null, amountCents };
}

function skipped(ahead: readonly BlockLot[], { lotNo, wholeSeller }: TypedInput<'lot.skip'>): BlockLot[] {
  const sellerNo = ahead.find((lot) => lot.lotNo === lotNo)?.sellerNo;
  const goes = (lot: BlockLot) => lot.lotNo === lotNo || (wholeSeller && lot.sellerNo === sellerNo);
  return [...ahead.filter((lot) => !goes(lot)), ...ahead.filter(goes)];
}

type Lots = readonly BlockLot[];

function placed(ahead: Lots, { lotNo, before = null }: TypedInput<'lot.place'>, known: Lots): Lots {
  const lot = [...ahead, ...known].find((one) => one.lotNo === lotNo);
  const others = ahead.filter((lot) => lot.lotNo !== lotNo);
  const at = before === null ? 0 : others.findIndex((lot) => lot.lotNo === before);
  // A place that is farther behind is not known here: the next view has it.
  if (at < 0 || !lot) return ahead;
  return [...others.slice(0, at), lot, ...others.slice(at)];
}
