import { describe, expect, it } from 'vitest';
import { aheadInWords, backupsInWords } from '#lib/backup/backups.ts';

const now = '2026-02-28T12:00:00.000Z';
const usual = {
  now,
  newest: { at: '2026-02-28T11:55:00.000Z', line: 100, inBook: true, beaten: false },
  line: 103,
  minutes: 10,
  failed: null,
};

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
    const old = { ...usual, newest: { at: '2026-02-28T11:00:00.000Z', line: 100, inBook: true, beaten: false } };
    expect(backupsInWords(old).warning).toMatch(/too old.*60 minutes.*Make one now/);
    expect(backupsInWords({ ...old, line: 100 }).warning).toBeNull();
    expect(backupsInWords({ ...old, minutes: 0 }).warning).toBeNull();
  });

  it('warn where there is none at all, and not in an empty book', () => {
    expect(backupsInWords({ ...usual, newest: null }).warning).toMatch(/no backup here yet/);
    expect(backupsInWords({ ...usual, newest: null, line: 0 }).warning).toBeNull();
  });

  it('say that everything is in it of no copy that is not of this book as it is now', () => {
    const newest = { at: usual.now, line: 108, inBook: false, beaten: true };
    for (const line of [103, 108, 110]) {
      const { standing } = backupsInWords({ ...usual, newest: { ...newest }, line });
      expect(standing).toBe('The newest is less than two minutes old. It has entries that the book does not.');
    }
    const beaten = { ...usual, newest: { ...usual.newest, beaten: true } };
    expect(backupsInWords({ ...beaten, line: 100 }).standing).toMatch(/It has what the book has, and no more\.$/);
    const unknown = backupsInWords({ ...usual, newest: { ...newest, line: null } });
    expect(unknown.standing).toMatch(/What is in it is not known\.$/);
  });

  it('tell of a backup that the book is only the beginning of, which one, and to restore it', () => {
    const { title, toDo } = aheadInWords({ name: 'lantern.book', more: 5, fewer: 0 });
    expect(title).toBe('This backup has 5 entries that the book does not: lantern.book. Do not go on entering.');
    expect(toDo).toMatch(
      /^Stop the program, move the book to another folder, and restore this backup in its place\. Delete nothing\.$/,
    );
    expect(aheadInWords({ name: 'x', more: 1, fewer: 0 }).title).toContain('has 1 entry that');
  });

  it('tell of a backup from which the book has parted, and how to be rid of the notice', () => {
    const { toDo } = aheadInWords({ name: 'x', more: 5, fewer: 3 });
    expect(toDo).toMatch(/^The book has 3 entries that this backup does not\. Keep both\./);
    expect(toDo).toMatch(/move this backup to another folder, and this notice goes\.$/);
    expect(aheadInWords({ name: 'x', more: null, fewer: null }).title).toContain('has entries that');
  });
});
