import { describe, expect, it } from 'vitest';
import { openBookInMemory } from '#db/book/open.ts';
import { networkSaid } from '#db/worker/queries.ts';
import { AT, hallOf } from '#tests/support/hall.ts';

const CLOSED = { hosts: [], plainStaff: false, waitsForSecond: false, reason: '', worker: '', at: '' };

describe('what the office says of the network', () => {
  it('is at first that every line is encrypted, under no further name', () => {
    expect(networkSaid(openBookInMemory())).toEqual(CLOSED);
  });

  it('names hosts once each in lower case, and lets staff work on an open line with a reason, by whom and when', () => {
    const hall = hallOf(openBookInMemory(), 0);
    const hosts = ['Hall.Local', 'hall.local', '10.0.0.7'];
    hall.must('network.set', { hosts, plainStaff: true, reason: ' an old phone ' });
    const said = networkSaid(hall.book);
    expect(said).toMatchObject({ hosts: ['hall.local', '10.0.0.7'], plainStaff: true, reason: 'an old phone', at: AT });
    expect(said.worker).not.toBe('');
    hall.must('network.set', { hosts: [], plainStaff: false });
    expect(networkSaid(hall.book)).toMatchObject({ hosts: [], plainStaff: false, reason: '' });
  });

  it('is refused without a reason for the open line, with a name that is none, and with too many', () => {
    const hall = hallOf(openBookInMemory(), 0);
    hall.refuses('network.set', { hosts: [], plainStaff: true, reason: ' ' }, { code: 'missing', field: 'reason' });
    hall.refuses('network.set', { hosts: ['a b'], plainStaff: false }, { code: 'malformed', field: 'hosts.0' });
    const many = Array.from({ length: 21 }, (_, at) => `h${at}`);
    hall.refuses('network.set', { hosts: many, plainStaff: false }, { code: 'malformed', field: 'hosts' });
    expect(networkSaid(hall.book)).toEqual(CLOSED);
  });
});
