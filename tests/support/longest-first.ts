import { basename } from 'node:path';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/**
 * The files of tests that take longest, the longest first: begun last, one of them would keep one worker at work long
 * after the others are done. A file that is not named here comes behind them, by its size or by what it took last time.
 */
const LONG = [
  ...['every-screen', 'block', 'block-faults', 'intake', 'first-sale', 'payout', 'block-cannot', 'doors', 'office'],
  ...['first-use', 'intake-terms', 'till', 'block-between', 'bad-days', 'papers', 'callers', 'prices', 'full-hall'],
  ...['model', 'outbox', 'render', 'verify-changes', 'evening', 'cli', 'round-trip', 'dues-at-sales', 'sign-in'],
  ...['fill', 'payout-papers', 'labels', 'tickets', 'payment-record', 'settlement-sheet', 'keep-copy', 'door', 'lists'],
].map((name) => `${name}.test.ts`);

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) => {
      const at = LONG.indexOf(basename(moduleId));
      return at < 0 ? LONG.length : at;
    };
    return (await super.sort(files)).sort((a, b) => place(a) - place(b));
  }
}
