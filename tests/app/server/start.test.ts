import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { tempFolder } from '#tests/support/temp.ts';

const SERVE = fileURLToPath(new URL('../../../app/server/serve.mjs', import.meta.url));

describe('the start', () => {
  it('with a path at which there is no book stops with a sentence, and makes nothing', () => {
    const folder = tempFolder();
    const file = join(folder, 'latnern', 'lantern.book');
    const env = { ...process.env, PELTRY_BOOK: file };
    const { status, stderr } = spawnSync(process.execPath, [SERVE, '--port', '0'], { env, encoding: 'utf8' });
    expect(stderr).toContain(`There is no book at ${file}.`);
    expect(stderr).toContain(`npm run --silent book -- init --book ${file}`);
    expect(status).toBe(1);
    expect(readdirSync(folder)).toEqual([]);
    expect(existsSync(dirname(file))).toBe(false);
  });
});
