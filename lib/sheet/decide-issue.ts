/** Whether a settlement sheet may be issued now. */
import type { Stage } from '#lib/facts.ts';
import type { LotNo } from '#lib/lot-number.ts';
import { accept, type Result, refuse } from '#lib/result.ts';
import { listed } from '#lib/sheet/spell.ts';

/** What the book knows of one seller number when its sheet is asked for. */
export interface IssueScene {
  readonly sellerNo: number;
  /** The sheet it has already, or null. */
  readonly issuedNumber: number | null;
  /** How many lots it brought so far. */
  readonly lots: number;
  /** Those of them that were not called yet. */
  readonly waiting: readonly LotNo[];
}

export function decideIssueStage(stage: Stage): Result<null> {
  if (stage === 'selling' || stage === 'settling') return accept(null);
  const next = stage === 'closed' ? 'It is closed: reopen it first.' : 'Sell the lots first.';
  return refuse('wrong_stage', `The sale is in the stage “${stage}”, where no sheet is issued. ${next}`, 'saleId');
}

/** Once the sale is settling, a lot that was not called stays with its seller and holds nothing up. */
export function decideIssue(stage: Stage, { sellerNo, issuedNumber, waiting }: IssueScene): Result<null> {
  const allowed = decideIssueStage(stage);
  if (!allowed.ok) return allowed;
  if (issuedNumber !== null) {
    const what = `Seller number ${sellerNo} already has settlement sheet ${issuedNumber}.`;
    return refuse('already', `${what} Print that one again; an issued sheet is never changed.`, 'sellerNo');
  }
  if (stage === 'selling' && waiting.length > 0) {
    const which = waiting.length === 1 ? `Lot ${waiting[0]} is` : `Lots ${listed(waiting)} are`;
    const what = `${which} of seller number ${sellerNo} and still to be called.`;
    return refuse('wrong_stage', `${what} Call or withdraw them, or take the sale to settling.`, 'sellerNo');
  }
  return accept(null);
}

/** Those of a whole sale whose sheets can be issued now, in the order given. */
export function decideIssueAll<T extends IssueScene>(stage: Stage, sellers: readonly T[]): Result<readonly T[]> {
  const allowed = decideIssueStage(stage);
  if (!allowed.ok) return allowed;
  const open = sellers.filter(({ issuedNumber }) => issuedNumber === null);
  if (open.length === 0) {
    const what = sellers.length === 0 ? 'This sale has no seller numbers' : 'Every seller number has its sheet';
    return refuse('already', `${what}: there is nothing to issue.`, 'sellerNo');
  }
  // Somebody who has just come in may still bring lots, and a sheet cannot be taken back.
  const ready = open.filter((scene) => decideIssue(stage, scene).ok && (stage !== 'selling' || scene.lots > 0));
  if (ready.length > 0) return accept(ready);
  return refuse(
    'wrong_stage',
    'Every seller number without a sheet has lots still to be called, or none yet. Call them, or take the sale to settling.',
    'sellerNo',
  );
}
