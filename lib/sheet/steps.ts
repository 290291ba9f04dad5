/** The reckoning of a sheet, line by line: what the lots brought, what goes off, and what is left. */
import type { Charge, ChargeKind } from '#lib/facts.ts';
import { type Cents, negate, showMoney, ZERO } from '#lib/money.ts';
import type { SellerSettlement } from '#lib/settlement.ts';
import type { SettlementSheet, SheetCharge, SheetStep } from '#lib/sheet/model.ts';
import { clean, figure, joined, withoutSign } from '#lib/sheet/spell.ts';

const CHARGES: Readonly<Record<ChargeKind, string>> = { dues: 'Dues', advance: 'Advance', adjustment: 'Adjustment' };

export function chargeOf(charge: Charge): SheetCharge {
  const label = joined([CHARGES[charge.kind], clean(charge.note)], ': ');
  return { kind: charge.kind, how: charge.how, label, amount: figure(charge.amountCents) };
}

/** The steps from gross to net. The effects of all but the last add up to the last. */
export function stepsOf(settled: SellerSettlement, charges: readonly SheetCharge[]): SheetStep[] {
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

/** A charge can be in the seller's favour: then it is put on. */
function takenOff(label: string, amount: Cents): SheetStep[] {
  if (amount === ZERO) return [];
  const kind = amount > ZERO ? 'less' : 'plus';
  return [{ kind, label, words: withoutSign(amount), effectCents: negate(amount) }];
}

export function paidInCash(charges: readonly SheetCharge[]): string[] {
  return charges.filter(({ how }) => how === 'cash').map(({ label, amount }) => `${label}: ${amount.words}`);
}

/** What comes out of it, said so that nobody has to read a minus sign. */
export function resultOf(netCents: Cents, currency: string): SettlementSheet['result'] {
  const words = withoutSign(netCents);
  if (netCents > ZERO) return { kind: 'pays', label: 'To be paid to you', words, sentence: '' };
  if (netCents === ZERO) {
    return { kind: 'even', label: 'Nothing is owed', words, sentence: 'What the lots brought covers what was due.' };
  }
  const sentence = `This sheet is a bill: fees and charges come to more than the lots brought. Please pay ${words} ${currency} to the association.`;
  return { kind: 'owes', label: 'Owed to the association', words, sentence };
}
