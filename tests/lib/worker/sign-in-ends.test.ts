import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stationsAfter, type WorkerChange } from '#lib/worker/worker.ts';

const amended = (stations: readonly string[], hasLeft = false): WorkerChange => ({
  ...{ kind: 'amended', stations, hasLeft },
});
const PASSPHRASE: WorkerChange = { kind: 'passphrase' };

// The rule is this project's own; common practice, no source.
describe('a sign-in', () => {
  it.each<[string, readonly WorkerChange[], readonly string[] | null]>([
    ['nothing', [], ['till']],
    ['a further station', [amended(['till', 'payout'])], ['till', 'payout']],
    ['the same stations', [amended(['till'])], ['till']],
    ['another passphrase', [PASSPHRASE], null],
    ['a station withdrawn', [amended(['payout'])], null],
    ['a station given and withdrawn again', [amended(['till', 'payout']), amended(['till'])], null],
    ['a station withdrawn and given again', [amended(['payout']), amended(['till'])], null],
    ['having left', [amended(['till'], true)], null],
    ['having left and come back', [amended(['till'], true), amended(['till'])], null],
    ['a passphrase before a further station', [PASSPHRASE, amended(['till', 'payout'])], null],
  ])('after %s is good for what it ought to be', (_, changes, ought) => {
    expect(stationsAfter(['till'], changes)).toEqual(ought);
  });

  it('that has ended stays so, whatever is said next, and is never good for a station that was withdrawn', () => {
    const stations = fc.subarray(['intake', 'block', 'till', 'payout', 'office'], { minLength: 1 });
    const change = fc.oneof(
      fc.constant(PASSPHRASE),
      fc.tuple(stations, fc.boolean()).map(([list, left]) => amended(list, left)),
    );
    const changes = fc.array(change, { maxLength: 6 });
    fc.assert(
      fc.property(stations, changes, changes, (first, some, more) => {
        const after = stationsAfter(first, some);
        if (after === null) expect(stationsAfter(first, [...some, ...more])).toBeNull();
        else {
          expect(after).toEqual(expect.arrayContaining([...first]));
          expect(stationsAfter(first, [...some, ...more])).toEqual(stationsAfter(after, more));
        }
      }),
    );
  });
});
