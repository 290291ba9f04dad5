/** A small sale in a real book for tests of the book: one seller number, two buyers, and short ways to give commands. */
import { expect } from 'vitest';
import type { Station } from '#db/book/command.ts';
import { type Answer, type Envelope, submitUntyped } from '#db/book/door.ts';
import { type Book, openBook, openBookInMemory } from '#db/book/open.ts';
import type { CommandName, InputOf, ValueOf } from '#db/commands.ts';
import type { RefusalCode } from '#lib/result/result.ts';
import type { Stage } from '#lib/sale/facts.ts';

export const AT = '2026-02-28T10:00:00Z';

export interface Hall {
  readonly book: Book;
  readonly saleId: number;
  /** Gives a command with a key of its own, as the office unless said otherwise. */
  give<N extends CommandName>(command: N, input: InputOf<N>, over?: Over): Answer<ValueOf<N>>;
  /** Gives a command that must be accepted. */
  must<N extends CommandName>(command: N, input: InputOf<N>, station?: Station): ValueOf<N>;
  /** Expects a refusal with this code and field, in a sentence, and the book as it was. */
  refuses<N extends CommandName>(command: N, input: InputOf<N>, ought: Ought, station?: Station): string;
  /** The same for an input that the compiler would not let pass, or a command that there is not: as out of a request. */
  refusesUntyped(command: string, input: unknown, ought: Ought, station?: Station): string;
  giveUntyped(command: string, input: unknown, over?: Over): Answer;
}

/** Who gives it and when, where it matters. */
export type Over = Partial<Omit<Envelope, 'command' | 'input'>>;

interface Ought {
  readonly code: RefusalCode;
  readonly field?: string;
}

let keys = 0;

/** Gives a command to a book with a key of its own. */
export function giveTo<N extends CommandName>(book: Book, command: N, over: Over & { readonly input: InputOf<N> }) {
  return giveToUntyped(book, command, over) as Answer<ValueOf<N>>;
}

/** The same for input as out of a request, which no compiler has read. */
export function giveToUntyped(book: Book, command: string, over: Over & { readonly input: unknown }): Answer {
  keys += 1;
  return submitUntyped(book, { command, worker: 'Ada', station: 'office', at: AT, key: `key-${keys}`, ...over });
}

export function accepted<V>(answer: Answer<V>): V {
  if (!answer.ok) throw new Error(`${answer.code}: ${answer.message}`);
  return answer.value;
}

/** Every row of every table, for comparing a book with itself. */
export function rowsOf(book: Pick<Book, 'sqlite'>): Record<string, unknown[]> {
  const names = book.sqlite.prepare("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name").pluck().all();
  return Object.fromEntries(
    (names as string[]).map((name) => [name, book.sqlite.prepare(`SELECT * FROM "${name}"`).all()]),
  );
}

export const SALE = {
  name: 'Late Winter Sale',
  held_on: '2026-02-28',
  venue: 'Grange hall',
  season: '2025-26',
  region: 'US-WY',
  currency: 'USD',
  bidding: 'floor',
  terms: {
    commission: { member: '6', guest: '10' },
    commission_overrides: { bobcat: { member: '3.75', guest: '6' } },
    commission_min: '0.10',
    seller_number_fee: '5.00',
    lot_fee: '0.25',
    no_sale: { flat: '1.00', pct_of_minimum: '2' },
    premium_pct: '5',
    tax_pct: '6.5',
    price_step: '0.25',
  },
} as const;

export const GOODS = [
  { goods: 'raccoon', name: 'Raccoon', by: 'piece' },
  { goods: 'castor', name: 'Castor', by: 'oz' },
  { goods: 'bobcat', name: 'Bobcat', by: 'piece', exportTag: true, tagSpeciesCode: 'BOB' },
] as const;

/** An export tag of the sale's own State for the bobcat. */
export const bobcatTag = (serial: number) =>
  ({ tag: `US-CITES WY BOB 2025 ${String(serial).padStart(6, '0')}` }) as const;

/** Seller 1 is a member, buyers 10 and 11 are cleared, and buyer 12 is seller 1 as well. No lot yet. */
export function openHall(options: { readonly file?: string; readonly stage?: Stage } = {}): Hall {
  const book = options.file === undefined ? openBookInMemory() : openBook(options.file, { create: true });
  const hall = hallOf(book, 1);
  hall.must('sale.plan', { sale: SALE, goods: GOODS });
  const { saleId } = hall;
  hall.must('sale.stage', { saleId, stage: 'intake', reason: '' });
  const enrol = (name: string) => hall.must('person.enrol', { name, memberUntil: '2026-12-31' }).personId;
  const [ada, bea, cal] = [enrol('Ada Birch'), enrol('Bea Cole'), enrol('Cal Dunn')];
  hall.must('seller.register', { saleId, sellerNo: 1, partners: [{ personId: ada }] });
  for (const [buyerNo, personId] of [
    [10, bea],
    [11, cal],
    [12, ada],
  ] as const) {
    hall.must('buyer.register', { saleId, buyerNo, personId, cleared: true });
  }
  for (const stage of wayTo(options.stage ?? 'selling')) {
    if (stage === 'closed') settleAll(hall);
    hall.must('sale.stage', { saleId, stage, reason: '' });
  }
  return hall;
}

export function hallOf(book: Book, saleId: number): Hall {
  const give: Hall['give'] = (command, input, over = {}) => giveTo(book, command, { input, ...over });
  const giveUntyped: Hall['giveUntyped'] = (command, input, over = {}) =>
    giveToUntyped(book, command, { input, ...over });
  const refusesUntyped: Hall['refusesUntyped'] = (command, input, ought, station = stationFor(command)) => {
    const before = rowsOf(book);
    const answer = giveUntyped(command, input, { station });
    expect(answer, JSON.stringify(answer)).toMatchObject({ ok: false, ...ought });
    expect(rowsOf(book)).toEqual(before);
    const message = answer.ok ? '' : answer.message;
    expect(message).toMatch(/^[\p{Lu}\d].*[.?]$/su);
    return message;
  };
  return {
    book,
    saleId,
    ...{ give, giveUntyped, refusesUntyped, refuses: refusesUntyped },
    must: (command, input, station = stationFor(command)) => accepted(give(command, input, { station })),
  };
}

function stationFor(command: string): Station {
  return command.startsWith('outcome') ? 'block' : 'office';
}

/** Seller 1 has sold nothing and pays the fee of the number, so that the sale is at zero. */
function settleAll({ must, saleId }: Hall): void {
  must('settlement.issue', { saleId, sellerNo: null, seen: 1 });
  must('payment.record', { saleId, direction: 'in', sellerNo: 1, method: 'cash', amount: '5.00' });
}

function wayTo(stage: Stage): Stage[] {
  const way: readonly Stage[] = ['selling', 'settling', 'closed'];
  return way.slice(0, way.indexOf(stage) + 1);
}
