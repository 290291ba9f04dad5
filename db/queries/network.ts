import type { Book } from '../open.ts';
import { network } from '../schema/index.ts';
import { statement } from '../statement.ts';

export interface NetworkSaid {
  /** Besides the machine's own names and addresses. */
  readonly hosts: readonly string[];
  /** Whether workers may sign in over a line that is not encrypted. */
  readonly plainStaff: boolean;
  readonly reason: string;
  /** Who said so, and when (ISO 8601, UTC); empty where nobody has said anything. */
  readonly worker: string;
  readonly at: string;
}

const NOTHING_SAID: NetworkSaid = { hosts: [], plainStaff: false, reason: '', worker: '', at: '' };

const findNetwork = statement(({ db }) => db.select().from(network).limit(1).prepare());

/** What the office has said of the hall's network; where it has said nothing, lines must be encrypted. */
export function networkSaid(book: Book): NetworkSaid {
  const row = findNetwork(book).get();
  if (!row) return NOTHING_SAID;
  const { hosts, plainStaff, reason, worker, at } = row;
  return { hosts: hosts === '' ? [] : hosts.split(' '), plainStaff, reason, worker, at };
}
