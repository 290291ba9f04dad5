import { expect, it } from 'vitest';
import { looks, noteLook } from '#db/sign-in/looks.ts';
import { openStore } from '#db/sign-in/store.ts';
import { tempFile } from '#tests/support/temp.ts';

const HOUR = 3_600_000;

it('looks at a record are counted by worker, person, kind and hour, newest first, and very old ones go', () => {
  const store = openStore(tempFile());
  const look = (at: number, worker = 'Ada', personId = 1) => noteLook(store, { at, worker, personId, what: 'log' });
  for (const at of [HOUR, HOUR + 5, 2 * HOUR]) look(at);
  look(HOUR + 9, 'Bea');
  look(HOUR + 2, 'Ada', 2);
  expect(looks(store, 10).map(({ at, worker, personId, times }) => [at, worker, personId, times])).toEqual([
    [2 * HOUR, 'Ada', 1, 1],
    [HOUR + 9, 'Bea', 1, 1],
    [HOUR + 5, 'Ada', 1, 2],
    [HOUR + 2, 'Ada', 2, 1],
  ]);
  store.sqlite.transaction(() => {
    for (let at = 3; at < 20_003; at += 1) look(at * HOUR);
  })();
  expect(store.sqlite.prepare('SELECT count(*) FROM look').pluck().get()).toBe(20_000);
  expect(looks(store, 1)[0]?.at).toBe(20_002 * HOUR);
  store.close();
});
