import { describe, expect, it } from 'vitest';
import { FILES, read } from './tree.ts';

// A folder that only one machine has, at the start of a path; and the host a package came from.
const OF_ONE_MACHINE = /(?<![\w.:/~$})-])\/(work|root|home|Users|mnt)\/\w|(?<![\w.])\/tmp\/\w/;
const REGISTRY = /\bregistry\.[a-z0-9-]+\.[a-z]{2,}\b|"resolved": *"http/;

function linesWith(pattern: RegExp, text: string): readonly number[] {
  return text.split('\n').flatMap((line, at) => (pattern.test(line) ? [at + 1] : []));
}

const found = (pattern: RegExp) =>
  FILES.flatMap((path) => linesWith(pattern, read(path)).map((line) => `${path}:${line}`));

describe('the project stands alone', () => {
  it('names no path of one machine: use a path from the project, or os.tmpdir()', () => {
    expect(linesWith(OF_ONE_MACHINE, ['', 'home', 'somebody'].join('/'))).toEqual([1]);
    expect(linesWith(OF_ONE_MACHINE, `read('${['', 'tmp', 'x'].join('/')}')`)).toEqual([1]);
    expect(found(OF_ONE_MACHINE)).toEqual([]);
  });

  it('names no package registry: each machine has its own setting', () => {
    expect(linesWith(REGISTRY, ['https://registry', 'example', 'com'].join('.'))).toEqual([1]);
    expect(found(REGISTRY)).toEqual([]);
  });
});
