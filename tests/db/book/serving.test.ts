import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { claimBook, claimFile } from '#db/book/check-file.ts';
import { tempFile } from '#tests/support/temp.ts';

/** What another process is told when it claims the same book; it ends at once and so gives back what it got. */
function elsewhere(file: string): string {
  const script = `const { default: Database } = await import('better-sqlite3');
    const sqlite = new Database(${JSON.stringify(claimFile(file))}, { timeout: 0 });
    try { sqlite.exec('BEGIN EXCLUSIVE'); console.log('mine'); } catch (fault) { console.log(fault.code); }
    process.kill(process.pid, 'SIGKILL');`;
  return spawnSync(process.execPath, ['--input-type=module', '-e', script], { encoding: 'utf8' }).stdout.trim();
}

describe('a book that is served', () => {
  it('is claimed once, by this process or another, and free again afterwards', () => {
    const file = tempFile();
    const claim = claimBook(file);
    expect(claim).not.toBeNull();
    expect(claimBook(file)).toBeNull();
    expect(elsewhere(file)).toBe('SQLITE_BUSY');
    claim?.release();
    expect(elsewhere(file)).toBe('mine');
    // The other one was killed with the lock in its hands.
    const again = claimBook(file);
    expect(again).not.toBeNull();
    again?.release();
  });
});
