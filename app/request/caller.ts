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
import type { Refusal, Result } from '#lib/result/result.ts';
import { theBook } from './book.ts';

/** The worker who is signed in on the device that asks, or undefined. */
export async function signedIn(): Promise<Worker | undefined> {
  return workerAsking(await theBook(), await headers());
}

/** See {@link callerOf}. */
export async function callerAt(stations?: readonly Station[]): Promise<Result<Caller>> {
  return callerOf(await theBook(), await headers(), stations);
}

interface StaffRequest {
  readonly book: Book;
  readonly caller: Caller;
  readonly request: Request;
  /** A word of the address, or undefined. */
  readonly word: (name: string) => string | undefined;
}

export interface SaleRequest extends StaffRequest {
  readonly sale: SaleRow;
}

export type Route = (request: Request) => Promise<Response>;
type Answer<R> = (asked: R) => Response | Promise<Response>;

/** A route for these stations, or for every worker where none are named; the only way to the book for one of the staff. */
export function staffRoute(stations: readonly Station[] | undefined, answer: Answer<StaffRequest>): Route {
  return async (request) => {
    const caller = await callerAt(stations);
    if (!caller.ok) return problem(caller);
    const { searchParams } = new URL(request.url);
    return answer({
      book: await theBook(),
      caller: caller.value,
      request,
      word: (name) => searchParams.get(name) ?? undefined,
    });
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

/** A route for an act of the office that needs no input, from our own pages only. */
export function officeRoute(answer: (book: Book, request: Request) => Response | Promise<Response>): Route {
  return async (request) => {
    const book = await theBook();
    const caller = notOurs(book, request) ?? callerOf(book, request.headers, ['office']);
    return caller.ok ? answer(book, request) : problem(caller);
  };
}

interface Asked<S extends z.ZodType> {
  readonly schema: S;
  /** What is answered where the schema cannot read it. */
  readonly unread: (error: z.ZodError) => Refusal;
  /** Of which stations whoever says it must be; of any where none are named. */
  readonly stations?: readonly Station[];
}

interface Said<T> {
  readonly book: Book;
  readonly caller: Caller;
  readonly said: T;
  readonly request: Request;
}

/** A route for what one of the staff says, by this schema, in a request of our own pages. */
export function saidRoute<S extends z.ZodType>(
  { schema, unread, stations }: Asked<S>,
  answer: Answer<Said<z.output<S>>>,
): Route {
  return async (request) => {
    const book = await theBook();
    const caller = callerOf(book, request.headers, stations);
    if (!caller.ok) return problem(caller);
    const read = await readJson(book, request);
    if (!read.ok) return problem(read);
    const typed = schema.safeParse(read.value);
    if (!typed.success) return problem(unread(typed.error));
    return answer({ book, caller: caller.value, said: typed.data, request });
  };
}
