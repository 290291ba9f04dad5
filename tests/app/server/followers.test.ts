import { beforeEach, describe, expect, it, vi } from 'vitest';
import { aloneSince, followersView, noteFollower, untilFollowed } from '#app/server/followers.ts';
import { newestLine } from '#db/book/log.ts';
import { openHall } from '#tests/support/hall.ts';

// The marker of server code, which only the framework's own bundler can judge.
vi.mock('server-only', () => ({}));

beforeEach(() => {
  Object.assign(globalThis, { peltryFollowers: undefined });
});

describe('the second laptops', () => {
  it('are shown with what each lacks, and since when it is silent', () => {
    const { book } = openHall();
    const head = newestLine(book);
    expect(followersView(book)).toEqual([]);
    const answered = noteFollower('spare', head - 2);
    expect(followersView(book)).toEqual([{ name: 'spare', behind: 2, silentSeconds: 0 }]);
    answered();
    const clock = vi.spyOn(Date, 'now').mockReturnValue(Date.now() + 61_000);
    expect(followersView(book)).toMatchObject([{ behind: 2, silentSeconds: 61 }]);
    clock.mockRestore();
    noteFollower('spare', head);
    expect(followersView(book)).toMatchObject([{ behind: 0, silentSeconds: 0 }]);
    for (let n = 0; n < 50; n += 1) noteFollower(`laptop ${n}`, head);
    expect(followersView(book)).toHaveLength(20);
  });
});

describe('an entry that waits for the second laptop', () => {
  it('is answered once that has the line', async () => {
    const waiting = untilFollowed(5);
    noteFollower('spare', 4);
    noteFollower('spare', 5);
    expect(await waiting).toBe(true);
    expect(aloneSince()).toBeNull();
  });

  it('is answered after two seconds all the same; the next ones at once, until the second laptop is there again', async () => {
    const late = vi.spyOn(AbortSignal, 'timeout');
    expect(await untilFollowed(5)).toBe(false);
    expect(late.mock.calls).toEqual([[2000]]);
    expect(aloneSince()).not.toBeNull();
    expect(await untilFollowed(6)).toBe(false);
    // Nothing was waited for.
    expect(late).toHaveBeenCalledOnce();
    late.mockRestore();
    noteFollower('spare', 6);
    const waiting = untilFollowed(7);
    noteFollower('spare', 7);
    expect(await waiting).toBe(true);
    expect(aloneSince()).toBeNull();
  });
});
