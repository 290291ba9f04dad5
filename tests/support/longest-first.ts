import { relative } from 'node:path';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/**
 * The browser tests that take longest, the longest first: begun last, one of them would keep one worker at work long
 * after the others are done. A file that is not named here comes behind them, by its size or by what it took last time.
 */
const LONG = [
  ...['every-screen', 'block', 'block-faults', 'first-sale', 'payout', 'block-between', 'intake', 'callers'],
  ...['block-race', 'bad-days', 'first-use', 'prices', 'till', 'board', 'papers', 'office', 'doors'],
].map((name) => `tests/screens/${name}.test.ts`);

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) => {
      const at = LONG.indexOf(relative(this.ctx.config.root, moduleId));
      return at < 0 ? LONG.length : at;
    };
    return (await super.sort(files)).sort((a, b) => place(a) - place(b));
  }
}
