import { z } from 'zod';
import { parseHostName } from '#lib/host-name.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { flag, readBy, text } from '../inputs.ts';
import { network } from '../schema/index.ts';

const MOST_HOSTS = 20;

const input = z.strictObject({
  /** Besides the machine's own names and addresses, which are always known. */
  hosts: z.array(readBy(parseHostName)).max(MOST_HOSTS, { error: `Enter at most ${MOST_HOSTS} names.` }),
  /** Whether workers may sign in over a line that is not encrypted. */
  plainStaff: flag,
  reason: text,
});

/** Says under which names the hall reaches this machine, and whether staff may work on an open line. */
export const networkSet = defineCommand({
  name: 'network.set',
  summary: 'Says under which further names this machine is reached, and whether staff may work on an open line.',
  logLabel: 'Names of the machine and its open line set',
  stations: ['office'],
  input,
  run({ book, at, worker, line }, { hosts, plainStaff, reason }) {
    if (plainStaff && reason.trim() === '') {
      return refuse('missing', 'Enter why the staff must work on an open line: it goes into the log.', 'reason');
    }
    const row = { id: 1, hosts: [...new Set(hosts)].join(' '), plainStaff, reason: reason.trim(), worker, at, line };
    book.db.insert(network).values(row).onConflictDoUpdate({ target: network.id, set: row }).run();
    return accept({ hosts: row.hosts, plainStaff });
  },
});
