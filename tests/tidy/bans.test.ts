import { describe, expect, it } from 'vitest';
import { BANS, caught } from './bans.ts';
import { FILES, files, read } from './tree.ts';

describe.each(BANS)('$what', (ban) => {
  const allowed = ban.allowed ?? {};

  it('is caught where it stands', () => {
    expect(caught(ban, `const before = 1;\n${ban.example}\n`)).toEqual([2]);
  });

  it('stands nowhere', () => {
    const found = files(ban.where)
      .filter((path) => !(path in allowed))
      .flatMap((path) => caught(ban, read(path)).map((line) => `${path}:${line} use ${ban.instead}`));
    expect(found).toEqual([]);
  });

  it('is allowed only where it is needed', () => {
    const idle = Object.keys(allowed).filter((path) => !FILES.includes(path) || caught(ban, read(path)).length === 0);
    expect(idle).toEqual([]);
  });
});
