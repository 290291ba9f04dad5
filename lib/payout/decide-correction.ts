/** Whether a correction sheet may be issued now: only to a sheet that was handed out and is no longer right. */
import type { Stage } from '#lib/facts.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { decideIssueStage } from '#lib/sheet/decide-issue.ts';

export interface CorrectionScene {
  readonly stage: Stage;
  readonly sellerNo: number;
  /** The newest sheet, or null where none was issued. */
  readonly sheetNumber: number | null;
  /** True where a fresh sheet would say other figures. */
  readonly changed: boolean;
}

export function decideCorrection({ stage, sellerNo, sheetNumber, changed }: CorrectionScene): Result<number> {
  const allowed = decideIssueStage(stage);
  if (!allowed.ok) return allowed;
  if (sheetNumber === null) {
    return refuse('wrong_stage', `Seller number ${sellerNo} has no sheet yet: issue the first one.`, 'sellerNo');
  }
  if (changed) return accept(sheetNumber);
  const message = `Sheet ${sheetNumber} of seller number ${sellerNo} is still right: there is nothing to correct.`;
  return refuse('already', message, 'sellerNo');
}
