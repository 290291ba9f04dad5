/**
 * What a command is: a name, a schema for its input, the stations that may give it, and one synchronous function
 * that decides and writes. A command is a function of the book, its input, and the time, the worker and the station
 * that its log line holds, and of nothing else: replaying the log must write the same rows again.
 */
import type * as z from 'zod';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { type SaleRow, saleById } from './find.ts';
import type { Book } from './open.ts';

export const STATIONS = ['intake', 'block', 'till', 'payout', 'office'] as const;
export type Station = (typeof STATIONS)[number];

/** Where addresses and phones are needed. Whoever works at the Block alone is not told where people live. */
export const CONTACT_STATIONS = ['intake', 'till', 'payout', 'office'] as const satisfies readonly Station[];

export type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

/** What a command may know besides its input. */
export interface CommandContext {
  readonly book: Book;
  /** ISO 8601 time in UTC, given by whoever opened the door. */
  readonly at: string;
  readonly worker: string;
  /** Where it is given, for a rule that a list of stations cannot say. */
  readonly station: Station;
  /** The sequence number that the log line of this command will have. */
  readonly line: number;
}

export interface Command<N extends string = string, S extends z.ZodType = z.ZodType, R extends Json = Json> {
  readonly name: N;
  /** One sentence for the reader of the interface description and of the data dictionary. */
  readonly summary: string;
  /** What the log calls it, such as `Dues taken`. The fields that a person asks about follow (`lib/worker/worker.ts`). */
  readonly logLabel: string;
  readonly stations: readonly Station[];
  readonly input: S;
  run(context: CommandContext, input: z.output<S>): Result<R>;
}

/** Gives a command its types, from which its name, its input and its reply are known everywhere. No other effect. */
export function defineCommand<const N extends string, S extends z.ZodType, R extends Json>(
  command: Command<N, S, R>,
): Command<N, S, R> {
  return command;
}

/** What a command about one sale may know besides: the sale that its input names. */
interface SaleCommand<N extends string, S extends z.ZodType, R extends Json> extends Omit<Command<N, S, R>, 'run'> {
  /** Whether it is refused once the sale is closed. */
  readonly untilClosed?: boolean;
  run(context: CommandContext & { readonly sale: SaleRow }, input: z.output<S>): Result<R>;
}

/** The same for a command about one sale: it is refused where the book has no sale of this `saleId`. */
export function defineSaleCommand<
  const N extends string,
  S extends z.ZodType<{ readonly saleId: number }>,
  R extends Json,
>({ untilClosed = false, ...command }: SaleCommand<N, S, R>): Command<N, S, R> {
  return {
    ...command,
    run(context, input) {
      const sale = findSale(context.book, input.saleId);
      if (!sale.ok) return sale;
      if (untilClosed && sale.value.stage === 'closed') {
        return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
      }
      return command.run({ ...context, sale: sale.value }, input);
    },
  };
}

/** A sale by its id, or the refusal that says that there is none. */
export function findSale(book: Book, saleId: number, field = 'saleId'): Result<SaleRow> {
  const sale = saleById(book, saleId);
  return sale ? accept(sale) : refuse('unknown', 'This sale is not in the book: choose it again.', field);
}
