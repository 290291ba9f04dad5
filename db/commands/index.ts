/**
 * Every command that the door knows. A command that is not listed here cannot be given. The types of all that give
 * one, the description of the interface and the data dictionary follow from this list.
 */
import type { z } from 'zod';
import type { Command } from '../command.ts';
import { associationSet } from './association-set.ts';
import { bidLeave } from './bid-leave.ts';
import { bidRetract } from './bid-retract.ts';
import { bidsAward } from './bids-award.ts';
import { bidsClosing } from './bids-closing.ts';
import { buyerAmend } from './buyer-amend.ts';
import { buyerClear } from './buyer-clear.ts';
import { buyerRegister } from './buyer-register.ts';
import { buyersCarry } from './buyers-carry.ts';
import { chargeAdd } from './charge-add.ts';
import { checkReissue } from './check-reissue.ts';
import { checkWrite } from './check-write.ts';
import { drawerRecord } from './drawer-record.ts';
import { drawerVoid } from './drawer-void.ts';
import { duesTake } from './dues-take.ts';
import { duesVoid } from './dues-void.ts';
import { goodsAdd } from './goods-add.ts';
import { goodsAmend } from './goods-amend.ts';
import { handoverRecord } from './handover-record.ts';
import { handoverReturn } from './handover-return.ts';
import { intakeRules } from './intake-rules.ts';
import { invoiceIssue } from './invoice-issue.ts';
import { lotAdd } from './lot-add.ts';
import { lotAmend } from './lot-amend.ts';
import { lotDivide } from './lot-divide.ts';
import { lotJoin } from './lot-join.ts';
import { lotMove } from './lot-move.ts';
import { lotPlace } from './lot-place.ts';
import { lotSkip } from './lot-skip.ts';
import { lotWithdraw } from './lot-withdraw.ts';
import { lotsAdd } from './lots-add.ts';
import { lotsWithdraw } from './lots-withdraw.ts';
import { memberCode } from './member-code.ts';
import { memberEnter } from './member-enter.ts';
import { networkSet } from './network-set.ts';
import { outcomeChoice } from './outcome-choice.ts';
import { outcomeCorrect } from './outcome-correct.ts';
import { outcomeRecord } from './outcome-record.ts';
import { outcomeReopen } from './outcome-reopen.ts';
import { paymentRecord } from './payment-record.ts';
import { paymentVoid } from './payment-void.ts';
import { payoutPolicy } from './payout-policy.ts';
import { personAmend } from './person-amend.ts';
import { personEnrol } from './person-enrol.ts';
import { personForget } from './person-forget.ts';
import { pricesFewest } from './prices-fewest.ts';
import { pricesImport } from './prices-import.ts';
import { saleAmend } from './sale-amend.ts';
import { saleHandover } from './sale-handover.ts';
import { saleImport } from './sale-import.ts';
import { saleNext } from './sale-next.ts';
import { saleOrder } from './sale-order.ts';
import { salePlan } from './sale-plan.ts';
import { saleStage } from './sale-stage.ts';
import { sellerRegister } from './seller-register.ts';
import { settlementCorrect } from './settlement-correct.ts';
import { settlementIssue } from './settlement-issue.ts';
import { tagMend } from './tag-mend.ts';
import { tagsSet } from './tags-set.ts';
import { workerAdd } from './worker-add.ts';
import { workerAmend } from './worker-amend.ts';
import { workerPassphrase } from './worker-passphrase.ts';
import { workerRenew } from './worker-renew.ts';

const COMMANDS = [
  associationSet,
  bidLeave,
  bidRetract,
  bidsAward,
  bidsClosing,
  buyerAmend,
  buyerClear,
  buyerRegister,
  buyersCarry,
  chargeAdd,
  checkReissue,
  checkWrite,
  drawerRecord,
  drawerVoid,
  duesTake,
  duesVoid,
  goodsAdd,
  goodsAmend,
  handoverRecord,
  handoverReturn,
  intakeRules,
  invoiceIssue,
  lotAdd,
  lotAmend,
  lotDivide,
  lotJoin,
  lotMove,
  lotPlace,
  lotSkip,
  lotWithdraw,
  lotsAdd,
  lotsWithdraw,
  memberCode,
  memberEnter,
  networkSet,
  outcomeChoice,
  outcomeCorrect,
  outcomeRecord,
  outcomeReopen,
  paymentRecord,
  paymentVoid,
  payoutPolicy,
  personAmend,
  personEnrol,
  personForget,
  pricesFewest,
  pricesImport,
  saleAmend,
  saleHandover,
  saleImport,
  saleNext,
  saleOrder,
  salePlan,
  saleStage,
  sellerRegister,
  settlementCorrect,
  settlementIssue,
  tagMend,
  tagsSet,
  workerAdd,
  workerAmend,
  workerPassphrase,
  workerRenew,
] as const;

type Defined = (typeof COMMANDS)[number];

/** What nobody changes once it is sent. A field that is left out is left out: JSON has no `undefined`. */
type Sent<T> = T extends object ? { readonly [K in keyof T]: Sent<Exclude<T[K], undefined>> } : T;

/** By name, what each command takes, as it is sent, and what it answers. */
export type Commands = {
  readonly [C in Defined as C['name']]: {
    readonly input: Sent<z.input<C['input']>>;
    readonly value: C extends Command<string, z.ZodType, infer R> ? R : never;
  };
};

export type CommandName = keyof Commands;
export type InputOf<N extends CommandName> = Commands[N]['input'];
export type ValueOf<N extends CommandName> = Commands[N]['value'];

const byName: ReadonlyMap<string, Command> = new Map(COMMANDS.map((command) => [command.name, command]));
if (byName.size < COMMANDS.length) throw new Error('Two commands have the same name.');

export function findCommand(name: string): Command | undefined {
  return byName.get(name);
}

export function allCommands(): readonly Command[] {
  return COMMANDS;
}
