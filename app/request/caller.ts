/** Who asks for a page or at a route of the framework, and what they say; `answer-entry.ts` asks for entries. */
import 'server-only';
import { headers } from 'next/headers';
import type * as z from 'zod';
import { notOurs, readJson } from '#app/server/body.ts';
import { notFoundProblem, problem } from '#app/server/responses.ts';
import { type Caller, callerOf, workerAsking } from '#app/server/session.ts';
import type { Station } from '#db/book/command.ts';
import type { SaleRow } from '#db/book/find.ts';
import type { Book } from '#db/book/open.ts';
import { saleOfAddress } from '#db/sale/queries.ts';
import type { Worker } from '#db/worker/queries.ts';
import { accept, type Refusal, type Result } from '#lib/result/result.ts';
import { theBook } from './book.ts';

/** The worker who is signed in on the device that asks, or undefined. */
export async function signedIn(): Promise<Worker | undefined> {
  return workerAsking(await theBook(), await headers());
}

/** See {@link callerOf}. */
export async function callerAt(stations?: readonly Station[]): Promise<Result<Caller>> {
  return callerOf(await theBook(), await headers(), stations);
}

/** The book for a request of one of these stations; the only way for a route of the staff to come by it. */
export async function staffBook(stations?: readonly Station[]): Promise<Result<Book>> {
  const caller = await callerAt(stations);
  return caller.ok ? accept(await theBook()) : caller;
}

export interface StaffRequest {
  readonly book: Book;
  readonly request: Request;
  /** A word of the address, or undefined. */
  readonly word: (name: string) => string | undefined;
}

export interface SaleRequest extends StaffRequest {
  readonly sale: SaleRow;
}

export type Route = (request: Request) => Promise<Response>;
type Answer<R> = (asked: R) => Response | Promise<Response>;

/** A route for these stations, or for every worker where none are named. */
export function staffRoute(stations: readonly Station[] | undefined, answer: Answer<StaffRequest>): Route {
  return async (request) => {
    const allowed = await staffBook(stations);
    if (!allowed.ok) return problem(allowed);
    const { searchParams } = new URL(request.url);
    return answer({ book: allowed.value, request, word: (name) => searchParams.get(name) ?? undefined });
  };
}

/** The same about one sale: `?sale=1` names it, else it is the current one. */
export function saleRoute(stations: readonly Station[] | undefined, answer: Answer<SaleRequest>): Route {
  return staffRoute(stations, (asked) => {
    const sale = saleOfAddress(asked.book, asked.word('sale'));
    return sale ? answer({ ...asked, sale }) : notFoundProblem('There is no such sale in the book.', 'sale');
  });
}

/** A number of the address, or 0, which nothing has. */
export function numberIn(word: string | undefined, digits = 5): number {
  return word !== undefined && word.length <= digits && /^\d+$/.test(word) ? Number.parseInt(word, 10) : 0;
}

/** Lets an act of the office pass that needs no input, from our own pages only. */
export async function officeAct(request: Request): Promise<Result<Caller>> {
  return notOurs(await theBook(), request) ?? callerAt(['office']);
}

interface Asked<S extends z.ZodType> {
  readonly schema: S;
  /** What is answered where the schema cannot read it. */
  readonly unread: Refusal;
  /** Of which stations whoever says it must be; of any where none are named. */
  readonly stations?: readonly Station[];
}

interface Said<T> {
  readonly book: Book;
  readonly caller: Caller;
  readonly said: T;
}

/** What one of the staff says in a request of our own pages, and who it is. */
export async function saidBy<S extends z.ZodType>(
  request: Request,
  { schema, unread, stations }: Asked<S>,
): Promise<Result<Said<z.output<S>>>> {
  const book = await theBook();
  const caller = callerOf(book, request.headers, stations);
  if (!caller.ok) return caller;
  const read = await readJson(book, request);
  if (!read.ok) return read;
  const typed = schema.safeParse(read.value);
  return typed.success ? accept({ book, caller: caller.value, said: typed.data }) : unread;
}
