/** Makes the finished settlement sheet of one seller number. Every sum is `lib/settlement/settlement.ts`'s; here it gets its words. */
import { longDate } from '#lib/date/date.ts';
import { compareLotNo } from '#lib/lot/number.ts';
import { addCents, type Cents, negate, showMoney, sumOf, ZERO } from '#lib/money/money.ts';
import type { Charge, ChargeKind, Sale } from '#lib/sale/facts.ts';
import { termsInWords } from '#lib/sale/terms.ts';
import type {
  SettlementSheet,
  SheetCharge,
  SheetHead,
  SheetSale,
  SheetShare,
  SheetStep,
  SheetTotals,
} from './model.ts';
import {
  associationOf,
  CAUTION,
  partnersOf,
  remarksOf,
  type SellerFile,
  type SheetStamp,
  settlementMembership,
  sheetTagsOf,
} from './parties.ts';
import { commissionPct, type SellerSettlement, settleSeller } from './settlement.ts';
import { type LotOnSheet, lotGroups } from './sheet-lots.ts';
import { clean, figure, joined, withoutSign } from './spelling.ts';

/** The figures of a sheet without its words: as much of it as can become untrue. */
export type SheetFigures = Pick<SettlementSheet, 'counted' | 'beside' | 'charges' | 'totals' | 'shares'>;

export function sheetFigures(file: SellerFile): SheetFigures {
  return figuresOf(file, settlementOf(file));
}

function figuresOf(file: SellerFile, settled: SellerSettlement): SheetFigures {
  const called = calledLots(file, settled);
  return {
    counted: lotGroups(called, ['sold', 'bought_back', 'passed']),
    beside: lotGroups(called, ['donated', 'unpaid', 'withdrawn', 'waiting']),
    charges: file.charges.map(chargeOf),
    totals: totalsOf(settled),
    shares: sharesOf(settled),
  };
}

/** The sheet as it is printed and frozen. Throws when the facts do not hang together. */
export function settlementSheet(given: SellerFile, stamp: SheetStamp): SettlementSheet {
  const file = { ...given, lots: [...given.lots].sort((a, b) => compareLotNo(a.lotNo, b.lotNo)) };
  const { sale, seller } = file;
  const settled = settlementOf(file);
  const { counted, beside, charges, totals, shares } = figuresOf(file, settled);
  const partners = partnersOf(file);
  return {
    paper: 'settlement-sheet',
    version: 2,
    title: 'Settlement sheet',
    ...stampOf('Sheet', stamp),
    association: associationOf(file.association),
    sale: sheetSaleOf(sale),
    sellerNo: seller.sellerNo,
    membership: settled.membership,
    membershipWords: settlementMembership(settled.membership, partners.length),
    partners,
    counted,
    countedSum: counted.length === 0 ? null : countedSum(settled),
    beside,
    charges,
    steps: stepsOf(settled, charges),
    paidInCash: paidInCash(charges),
    totals,
    result: resultOf(settled.netCents, sale.currency),
    sharesTitle: sharesTitle(settled, partners.length),
    shares: shares.map((share, at) => ({ ...share, name: partners[at]?.name ?? share.name, ...paidTo(file, share) })),
    remarks: remarksOf(file, partners),
    tags: sheetTagsOf(file),
    terms: termsInWords(sale, file.goods).map(clean),
    caution: CAUTION,
  };
}

/** Who is paid in a partner's place. A partner who owes has nobody to be paid. */
function paidTo({ people }: SellerFile, { personId, share }: SheetShare): Pick<SheetShare, 'paidTo'> {
  const payee = clean(people.find((person) => person.personId === personId)?.payee ?? '');
  return payee === '' || share.cents <= ZERO ? {} : { paidTo: `Paid to ${payee}` };
}

/** The settlement behind a sheet: sums 2 to 7 over the lots of the file. */
export function settlementOf({ seller, sale, lots, outcomes, charges }: SellerFile): SellerSettlement {
  const byLot = new Map(lots.map((lot) => [lot.lotNo, lot]));
  const called = outcomes.map((outcome) => {
    const lot = byLot.get(outcome.lotNo);
    if (lot === undefined) throw new RangeError(`lot ${outcome.lotNo} is not of seller number ${seller.sellerNo}`);
    return { lot, outcome };
  });
  return settleSeller(seller, { sale, called, charges });
}

function calledLots({ lots, outcomes, goods, sale }: SellerFile, settled: SellerSettlement): LotOnSheet[] {
  const kinds = new Map(goods.map((kind) => [kind.goods, kind]));
  const byLot = new Map(outcomes.map((outcome) => [outcome.lotNo, outcome]));
  const rows = new Map(settled.rows.map((row) => [row.lotNo, row]));
  return lots.map((lot) => ({
    lot,
    goods: kinds.get(lot.goods),
    outcome: byLot.get(lot.lotNo),
    row: rows.get(lot.lotNo),
    commissionPct: commissionPct(sale.terms, lot.goods, settled.membership),
  }));
}

type Stamped = Pick<SettlementSheet, 'number' | 'numberWords' | 'preview' | 'issuedOn' | 'issuedWords' | 'head'>;

/** What a paper with a number says of it and of its day; `name` is what stands before the number. */
export function stampOf(name: string, { number, issuedOn, head }: SheetStamp): Stamped {
  const preview = number === null;
  const date = longDate(issuedOn);
  return {
    number,
    numberWords: preview ? 'PREVIEW' : `${name} ${number}`,
    preview,
    issuedOn,
    issuedWords: preview ? `Drawn ${date}, not issued: it may still change` : `Issued ${date}`,
    head: sheetHeadOf(head),
  };
}

/** The columns of the lots that count, added up; a donated lot is in none of them. */
function countedSum(settled: SellerSettlement): SettlementSheet['countedSum'] {
  const { rows, grossCents, commissionCents, lotFeesCents, noSaleFeesCents } = settled;
  return {
    label: 'Sum of the lots above',
    amount: figure(grossCents),
    commission: figure(commissionCents),
    fees: figure(addCents(lotFeesCents, noSaleFeesCents)),
    net: figure(sumOf(rows, 'netCents')),
  };
}

function totalsOf(settled: SellerSettlement): SheetTotals {
  const { lotsSold, lotsPassed, grossCents, commissionCents, lotFeesCents, noSaleFeesCents } = settled;
  const { sellerNumberFeeCents, chargesCents, netCents } = settled;
  const lots = { lotsSold, lotsPassed, grossCents, commissionCents, lotFeesCents, noSaleFeesCents };
  return { ...lots, lotNetsCents: sumOf(settled.rows, 'netCents'), sellerNumberFeeCents, chargesCents, netCents };
}

function sharesTitle({ netCents }: SellerSettlement, partners: number): string {
  if (netCents < ZERO) return partners > 1 ? 'What each partner owes of it' : 'Owed by';
  return partners > 1 ? 'How the partners share it' : 'Payable to';
}

/** The share of each partner, who is named by nothing but the person's number yet. */
function sharesOf({ shares }: SellerSettlement): SheetShare[] {
  const all = shares.reduce((sum, { parts }) => sum + parts, 0);
  return shares.map(({ personId, parts, shareCents }) => ({
    personId,
    name: personId,
    parts,
    partsWords: shares.length > 1 ? `${parts} of ${all} parts` : '',
    share: { cents: shareCents, words: withoutSign(shareCents) },
  }));
}

export const CHARGES: Readonly<Record<ChargeKind, string>> = {
  dues: 'Dues',
  advance: 'Advance',
  adjustment: 'Adjustment',
};

export function chargeOf(charge: Charge): SheetCharge {
  const label = joined([CHARGES[charge.kind], clean(charge.note)], ': ');
  return { kind: charge.kind, how: charge.how, label, amount: figure(charge.amountCents) };
}

/** The steps from gross to net. The effects of all but the last add up to the last. */
function stepsOf(settled: SellerSettlement, charges: readonly SheetCharge[]): SheetStep[] {
  const { grossCents, netCents } = settled;
  return [
    { kind: 'start', label: 'Gross proceeds', words: showMoney(grossCents), effectCents: grossCents },
    ...takenOff('Commission', settled.commissionCents),
    ...takenOff('Lot fees', settled.lotFeesCents),
    ...takenOff('No-sale fees', settled.noSaleFeesCents),
    ...takenOff('Seller number', settled.sellerNumberFeeCents),
    ...charges.filter(({ how }) => how === 'deducted').flatMap(({ label, amount }) => takenOff(label, amount.cents)),
    { kind: 'sum', label: 'Net', words: showMoney(netCents), effectCents: netCents },
  ];
}

/** A charge can be in the seller's favor: then it is put on. */
function takenOff(label: string, amount: Cents): SheetStep[] {
  if (amount === ZERO) return [];
  const kind = amount > ZERO ? 'less' : 'plus';
  return [{ kind, label, words: withoutSign(amount), effectCents: negate(amount) }];
}

function paidInCash(charges: readonly SheetCharge[]): string[] {
  return charges.filter(({ how }) => how === 'cash').map(({ label, amount }) => `${label}: ${amount.words}`);
}

/** What comes out of it, said so that nobody has to read a minus sign. */
function resultOf(netCents: Cents, currency: string): SettlementSheet['result'] {
  const words = withoutSign(netCents);
  if (netCents > ZERO) return { kind: 'pays', label: 'To be paid to you', words, sentence: '' };
  if (netCents === ZERO) {
    return { kind: 'even', label: 'Nothing is owed', words, sentence: 'What the lots brought covers what was due.' };
  }
  const sentence = `This sheet is a bill: fees and charges come to more than the lots brought. Please pay ${words} ${currency} to the association.`;
  return { kind: 'owes', label: 'Owed to the association', words, sentence };
}

/** The seal in groups of eight, so that two people can compare it aloud. */
export function sheetHeadOf({ seq, hash }: SheetStamp['head']): SheetHead {
  const groups = hash.match(/.{1,8}/g) ?? [];
  return { seq, hash, words: `Log line ${seq}, seal ${groups.join(' ')}` };
}

export function sheetSaleOf({ name, heldOn, venue, season, currency }: Sale): SheetSale {
  const heldOnWords = longDate(heldOn);
  const words = joined([heldOnWords, venue, `season ${season}`], ' · ');
  return { name: clean(name), heldOn, heldOnWords, venue: clean(venue), season: clean(season), currency, words };
}
