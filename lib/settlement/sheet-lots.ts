/** The lots of a sheet: one row a lot, in groups by what became of it. */
import { lotAmount } from '#lib/lot/amount.ts';
import { lotDetails } from '#lib/lot/details.ts';
import { compareLotNo } from '#lib/lot/number.ts';
import { percentOf, roundHalfUp } from '#lib/money/decimal.ts';
import { type Cents, showMoney, ZERO } from '#lib/money/money.ts';
import type { Rate } from '#lib/money/rate.ts';
import type { Goods, Lot, Outcome } from '#lib/sale/facts.ts';
import type { LotGroup, LotGroupKind, SheetLot } from './model.ts';
import type { SheetRow } from './settlement.ts';
import { blank, clean, figure, joined, NOTHING, piecesFor, priceFor, quantityFor } from './spelling.ts';

/** A lot with what became of it. A lot that was not called has no outcome and no row. */
export interface LotOnSheet {
  readonly lot: Lot;
  readonly goods: Goods | undefined;
  readonly outcome: Outcome | undefined;
  readonly row: SheetRow | undefined;
  readonly commissionPct: Rate;
}

const TITLES: Readonly<Record<LotGroupKind, string>> = {
  sold: 'Sold',
  bought_back: 'Bought back: your own bid was the last, so nobody pays for these',
  passed: 'No-sale (passed)',
  donated: 'Given to the association: what these brought is not in your sum',
  unpaid: 'Not paid for: the buyer never paid, and you are charged nothing',
  withdrawn: 'Withdrawn before the hammer fell',
  waiting: 'Not called',
};

/** The groups that have lots, in the order asked for, each by lot number. */
export function lotGroups(lots: readonly LotOnSheet[], kinds: readonly LotGroupKind[]): LotGroup[] {
  const sorted = [...lots].sort((a, b) => compareLotNo(a.lot.lotNo, b.lot.lotNo));
  return kinds
    .map((kind) => ({ kind, title: TITLES[kind], lots: sorted.filter((lot) => groupOf(lot) === kind).map(rowOf) }))
    .filter((group) => group.lots.length > 0);
}

function groupOf({ lot, outcome }: LotOnSheet): LotGroupKind {
  if (outcome === undefined) return 'waiting';
  const { kind } = outcome;
  return lot.donated && (kind === 'sold' || kind === 'passed') ? 'donated' : kind;
}

function rowOf(called: LotOnSheet): SheetLot {
  const { lot, goods, outcome } = called;
  return {
    lotNo: lot.lotNo,
    outcome: outcome?.kind ?? 'waiting',
    ...(outcome?.fate && { fate: outcome.fate }),
    donated: lot.donated,
    goods: clean(goods?.name ?? lot.goods),
    detail: joined([detailOf(lot), outcome?.fate ? FATES[outcome.fate] : ''], ' · '),
    note: clean(lot.note),
    quantity: quantityFor(lot),
    price: priceOf(called),
    ...figuresOf(called),
  };
}

/** What became of the fur, said to its seller. */
const FATES = { seller: 'goes back to you', association: 'kept by the association' } as const;

/** A lot by weight says its pieces here, where there are several. */
function detailOf(lot: Lot): string {
  const byWeight = lot.by === 'lb' || lot.by === 'oz';
  const pieces = byWeight && lot.count !== null && lot.count > 1 ? piecesFor(lot.count).words : '';
  return joined([lotDetails('sheet', lot), pieces], ' · ');
}

function priceOf({ lot, outcome }: LotOnSheet): SheetLot['price'] {
  if (outcome && outcome.priceCents !== null) {
    return { kind: 'hammer', cents: outcome.priceCents, ...priceFor(outcome.priceCents, lot.by) };
  }
  if (lot.minimumCents === null) return { kind: 'none', cents: null, ...NOTHING };
  const minimum = priceFor(lot.minimumCents, lot.by);
  return { kind: 'minimum', cents: lot.minimumCents, ...minimum, words: `minimum ${minimum.words}` };
}

type Figures = Pick<SheetLot, 'amount' | 'commission' | 'commissionHow' | 'fees' | 'feesHow' | 'net'>;

function figuresOf(called: LotOnSheet): Figures {
  const { row } = called;
  if (row === undefined) {
    const nothing = blank(ZERO);
    return { amount: nothing, commission: nothing, commissionHow: '', fees: nothing, feesHow: '', net: nothing };
  }
  const sold = row.outcome === 'sold';
  const hammered = sold || row.outcome === 'bought_back';
  const counts = (hammered || row.outcome === 'passed') && !row.donated;
  const own = counts ? figure : blank;
  return {
    amount: sold ? figure(row.amountCents) : blank(ZERO),
    commission: hammered ? own(row.commissionCents) : blank(ZERO),
    commissionHow: hammered && counts ? commissionHow(called, row) : '',
    fees: own(row.feesCents),
    feesHow: feesHow(row),
    net: own(row.netCents),
  };
}

/** The percentage, or which limit of the terms took its place. */
function commissionHow({ lot, outcome, commissionPct }: LotOnSheet, { commissionCents }: SheetRow): string {
  const amountCents: Cents = lotAmount(outcome?.priceCents ?? ZERO, lot);
  if (commissionCents === roundHalfUp(percentOf(amountCents, commissionPct))) return `${commissionPct} %`;
  return commissionCents === amountCents ? 'all of it' : `at least ${showMoney(commissionCents)}`;
}

function feesHow({ lotFeeCents, noSaleFeeCents }: SheetRow): string {
  if (lotFeeCents === ZERO || noSaleFeeCents === ZERO) return '';
  return `lot fee ${showMoney(lotFeeCents)}, no-sale fee ${showMoney(noSaleFeeCents)}`;
}
