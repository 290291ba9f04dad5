/**
 * Every command that the door knows: all that the files of the words below export. What is not exported by one of them
 * cannot be given. The types of all that give a command, the description of the interface and the data dictionary follow.
 */
import type * as z from 'zod';
import * as bankArrival from '#db/bank/arrival-commands.ts';
import * as bank from '#db/bank/commands.ts';
import type { Command } from '#db/book/command.ts';
import * as buyer from '#db/buyer/commands.ts';
import * as buyerHandover from '#db/buyer/handover-commands.ts';
import * as drawer from '#db/drawer/commands.ts';
import * as follow from '#db/follow/commands.ts';
import * as invoice from '#db/invoice/commands.ts';
import * as lotChange from '#db/lot/change-commands.ts';
import * as lot from '#db/lot/commands.ts';
import * as lotList from '#db/lot/list-command.ts';
import * as lotOrder from '#db/lot/order-commands.ts';
import * as outcomeBid from '#db/outcome/bid-commands.ts';
import * as outcome from '#db/outcome/commands.ts';
import * as outcomeUnpaid from '#db/outcome/unpaid-commands.ts';
import * as outcomeWritten from '#db/outcome/written-commands.ts';
import * as paymentCheck from '#db/payment/check-commands.ts';
import * as payment from '#db/payment/commands.ts';
import * as paymentTaking from '#db/payment/taking-commands.ts';
import * as person from '#db/person/commands.ts';
import * as personDues from '#db/person/dues-commands.ts';
import * as price from '#db/price/commands.ts';
import * as priceMember from '#db/price/member-commands.ts';
import * as saleAssociation from '#db/sale/association-commands.ts';
import * as sale from '#db/sale/commands.ts';
import * as saleGoods from '#db/sale/goods-commands.ts';
import * as saleStage from '#db/sale/stage-commands.ts';
import * as seller from '#db/seller/commands.ts';
import * as settlement from '#db/settlement/commands.ts';
import * as tag from '#db/tag/commands.ts';
import * as worker from '#db/worker/commands.ts';

const MODULES = [
  bank,
  bankArrival,
  buyer,
  buyerHandover,
  drawer,
  follow,
  invoice,
  lotChange,
  lot,
  lotList,
  lotOrder,
  outcomeBid,
  outcome,
  outcomeUnpaid,
  outcomeWritten,
  paymentCheck,
  payment,
  paymentTaking,
  person,
  personDues,
  price,
  priceMember,
  saleAssociation,
  sale,
  saleGoods,
  saleStage,
  seller,
  settlement,
  tag,
  worker,
] as const;

type ValueIn<M> = M extends unknown ? M[keyof M] : never;
type Defined = Extract<ValueIn<(typeof MODULES)[number]>, { readonly logLabel: string }>;

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

const COMMANDS: readonly Command[] = MODULES.flatMap((module): unknown[] => Object.values(module))
  .filter(isCommand)
  .sort((one, other) => (one.name < other.name ? -1 : 1));

function isCommand(exported: unknown): exported is Defined {
  return typeof exported === 'object' && exported !== null && 'logLabel' in exported;
}

const byName: ReadonlyMap<string, Command> = new Map(COMMANDS.map((command) => [command.name, command]));
if (byName.size < COMMANDS.length) throw new Error('Two commands have the same name.');

export function findCommand(name: string): Command | undefined {
  return byName.get(name);
}

export function allCommands(): readonly Command[] {
  return COMMANDS;
}
