import { describe, expect, it } from 'vitest';
import { backupsInWords } from '#lib/backup-words.ts';

const now = '2026-02-28T12:00:00.000Z';
const usual = { now, newest: { at: '2026-02-28T11:55:00.000Z', line: 100 }, line: 103, minutes: 10, failed: null };

describe('backups in words', () => {
  it('say how old the newest is and how much came since', () => {
    expect(backupsInWords(usual)).toEqual({
      ...{ warning: null, standing: 'The newest is 5 minutes old. 3 entries were made since.' },
    });
    expect(backupsInWords({ ...usual, line: 100 }).standing).toMatch(/Everything that was entered is in it/);
    expect(backupsInWords({ ...usual, line: 101 }).standing).toMatch(/1 entry was made since/);
  });

  it('warn where the last attempt failed, with its words', () => {
    const { warning } = backupsInWords({ ...usual, failed: 'There is no folder /media/stick.' });
    expect(warning).toMatch(/^The last backup failed: There is no folder \/media\/stick\. The newest is 5 minutes old/);
  });

  it('warn where the newest is older than three times what is set, and entries came since', () => {
    const old = { ...usual, newest: { at: '2026-02-28T11:00:00.000Z', line: 100 } };
    expect(backupsInWords(old).warning).toMatch(/too old.*60 minutes.*Make one now/);
    expect(backupsInWords({ ...old, line: 100 }).warning).toBeNull();
    expect(backupsInWords({ ...old, minutes: 0 }).warning).toBeNull();
  });

  it('warn where there is none at all, and not in an empty book', () => {
    expect(backupsInWords({ ...usual, newest: null }).warning).toMatch(/no backup here yet/);
    expect(backupsInWords({ ...usual, newest: null, line: 0 }).warning).toBeNull();
  });
});
