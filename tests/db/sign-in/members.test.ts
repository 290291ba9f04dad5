import { expect, it, onTestFinished } from 'vitest';
import { openBookInMemory } from '#db/book/open.ts';
import { digestOfCode, drawCode } from '#db/sign-in/credentials.ts';
import { beginMemberSession, endMemberSession, MEMBER_MS, memberOfToken, workerOfToken } from '#db/sign-in/sessions.ts';
import { openStore } from '#db/sign-in/store.ts';
import { tempFile } from '#tests/support/temp.ts';

const NOW = 1_800_000_000_000;

function store() {
  const opened = openStore(tempFile());
  onTestFinished(opened.close);
  return opened;
}

it('a member who came in is known by their token for half a day, and by nothing else', () => {
  const at = store();
  const token = beginMemberSession(at, 7, NOW);
  expect(memberOfToken(at, token, NOW + MEMBER_MS)).toBe(7);
  expect(memberOfToken(at, token, NOW + MEMBER_MS + 1)).toBeUndefined();
  expect(memberOfToken(at, `${token}x`, NOW)).toBeUndefined();
  const book = openBookInMemory();
  onTestFinished(() => book.close());
  expect(workerOfToken({ book, store: at }, token, NOW)).toBeUndefined();
});

it('a look that was ended, or ran out before another began, leaves nothing behind', () => {
  const at = store();
  const [late, ended] = [beginMemberSession(at, 7, NOW - MEMBER_MS - 1), beginMemberSession(at, 8, NOW)];
  endMemberSession(at, ended);
  expect(memberOfToken(at, ended, NOW)).toBeUndefined();
  beginMemberSession(at, 9, NOW);
  expect(memberOfToken(at, late, NOW - MEMBER_MS)).toBeUndefined();
  expect(at.sqlite.prepare('SELECT person_id FROM member').pluck().all()).toEqual([9]);
});

it('a code is the same however its groups are typed, and never drawn with letters taken for others', () => {
  const code = drawCode();
  expect(code).toMatch(/^[A-HJKMNP-TV-Z2-9]{4}(-[A-HJKMNP-TV-Z2-9]{4}){2}$/);
  expect(digestOfCode(` ${code.toLowerCase().replaceAll('-', ' ')}`)).toBe(digestOfCode(code));
  expect(drawCode()).not.toBe(code);
});
