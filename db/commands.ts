/**
 * Every command that the door knows. A command that is not listed here cannot be given. The types of all that give
 * one, the description of the interface and the data dictionary follow from this list.
 */
import type { z } from 'zod';
import type { Command } from '#db/book/command.ts';
import { buyerAmend, buyerClear, buyerRegister, buyersCarry } from '#db/buyer/commands.ts';
import { handoverRecord, handoverReturn } from '#db/buyer/handover-commands.ts';
import { drawerRecord, drawerVoid } from '#db/drawer/commands.ts';
import { invoiceIssue } from '#db/invoice/commands.ts';
import { lotDivide, lotJoin, lotMove } from '#db/lot/change-commands.ts';
import { lotAdd, lotAmend } from '#db/lot/commands.ts';
import { lotsAdd } from '#db/lot/list-command.ts';
import { lotPlace, lotSkip, lotsWithdraw, lotWithdraw } from '#db/lot/order-commands.ts';
import { bidLeave, bidRetract, bidsAward, bidsClosing } from '#db/outcome/bid-commands.ts';
import { outcomeChoice, outcomeCorrect, outcomeRecord, outcomeReopen } from '#db/outcome/commands.ts';
import { checkReissue, checkWrite } from '#db/payment/check-commands.ts';
import { paymentRecord, paymentVoid } from '#db/payment/commands.ts';
import { personAmend, personEnrol, personForget } from '#db/person/commands.ts';
import { duesTake, duesVoid } from '#db/person/dues-commands.ts';
import { pricesFewest, pricesImport } from '#db/price/commands.ts';
import { memberCode, memberEnter } from '#db/price/member-commands.ts';
import { associationSet, intakeRules, networkSet, payoutPolicy, saleImport } from '#db/sale/association-commands.ts';
import { saleAmend, saleNext, salePlan } from '#db/sale/commands.ts';
import { goodsAdd, goodsAmend } from '#db/sale/goods-commands.ts';
import { saleHandover, saleOrder, saleStage } from '#db/sale/stage-commands.ts';
import { chargeAdd, sellerRegister } from '#db/seller/commands.ts';
import { settlementCorrect, settlementIssue } from '#db/settlement/commands.ts';
import { tagMend, tagsSet } from '#db/tag/commands.ts';
import { workerAdd, workerAmend, workerPassphrase, workerRenew } from '#db/worker/commands.ts';

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
