import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { guard, node } from '../../.ci/shell.mjs';

const MINUTE = 60_000;

describe('the limits of the check', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it('let a slow program go on for as long as it prints now and then', () => {
    const end = vi.fn();
    const watch = guard({ limitMs: 60 * MINUTE, silentMs: 5 * MINUTE }, end);
    for (let printed = 1; printed <= 10; printed += 1) {
      vi.advanceTimersByTime(4 * MINUTE);
      watch.heard();
    }
    expect(end).not.toHaveBeenCalled();
    vi.advanceTimersByTime(5 * MINUTE);
    expect(end.mock.calls[0]).toEqual(['it said nothing for 5 minutes']);
  });

  it('end what prints for ever, and nothing that is over', () => {
    const end = vi.fn();
    const watch = guard({ limitMs: MINUTE, silentMs: 0 }, end);
    vi.advanceTimersByTime(MINUTE);
    expect(end.mock.calls).toEqual([['it took more than 1 minutes']]);
    watch.over();
    guard({ limitMs: MINUTE, silentMs: MINUTE }, end).over();
    vi.advanceTimersByTime(60 * MINUTE);
    expect(end).toHaveBeenCalledTimes(1);
  });
});

describe('a program that hangs', () => {
  // It starts another that hangs too and holds its output open: both have to go, or nobody would see it end.
  const hangs = 'setInterval(() => {}, 1000)';
  const starts = `require('node:child_process').spawn(process.execPath, ['-e', '${hangs}'], { stdio: 'inherit' }); ${hangs}`;

  it.each([{ silentMs: 300 }, { limitMs: 300 }])('is ended with all that it started: %j', async (limits) => {
    vi.spyOn(console, 'log').mockImplementation(() => undefined);
    expect(await node(['-e', starts], limits)).toBeNull();
    vi.restoreAllMocks();
  });

  it('is not what ends by itself, and its exit code is told', async () => {
    expect(await node(['-e', 'process.exit(3)'], { limitMs: 45 * MINUTE, silentMs: 5 * MINUTE })).toBe(3);
  });
});
