/** Submits the demo's entries as the stations of a hall would. */
import type { Station } from '#db/book/command.ts';
import { submit as submitToBook } from '#db/book/door.ts';
import type { Book } from '#db/book/open.ts';
import type { CommandName, InputOf, ValueOf } from '#db/commands.ts';
import { instantOf } from '#lib/date/date.ts';
import { formatMoney } from '#lib/money/money.ts';
import { ASSOCIATION } from './association.ts';

/** Who works at which station, and how many seconds an entry takes there. */
const CREW: Readonly<Record<Station, { worker: string; seconds: number }>> = {
  office: { worker: 'Idris Bekelo', seconds: 90 },
  intake: { worker: 'Ruth Hallbjørnsen', seconds: 25 },
  block: { worker: 'Pavel Drahošek', seconds: 16 },
  till: { worker: 'Noémie Castellane', seconds: 50 },
  payout: { worker: 'Noémie Castellane', seconds: 40 },
};

export interface Driver {
  readonly book: Book;
  /** Sets the hall's clock to a day and a time as the hall has them, such as `2024-02-24` and `13:30`. */
  clock(day: string, time: string): void;
  /**
   * Submits a command and advances the clock.
   * @throws where it is refused: then the demo itself is wrong.
   */
  submit<N extends CommandName>(station: Station, command: N, input: InputOf<N>): ValueOf<N>;
}

export function driverFor(book: Book): Driver {
  let at = 0;
  let entries = 0;
  return {
    book,
    clock: (day, time) => {
      at = Date.parse(instantOf(day, time, ASSOCIATION.timeZone));
    },
    submit: (station, command, input) => {
      const { worker, seconds } = CREW[station];
      entries += 1;
      const key = `demo-${String(entries).padStart(6, '0')}`;
      const answer = submitToBook(book, { command, input, worker, station, at: new Date(at).toISOString(), key });
      if (!answer.ok) throw new DriverRefused(command, answer.message, answer.field ?? '');
      at += seconds * 1000;
      return answer.value;
    },
  };
}

/** A refusal that the demo did not expect, or one whose question it means to answer. */
export class DriverRefused extends Error {
  readonly field: string;
  constructor(command: string, message: string, field: string) {
    super(`${command}: ${message}`);
    this.field = field;
  }
}

/** An amount as it is typed at a station. */
export const typed = formatMoney;
