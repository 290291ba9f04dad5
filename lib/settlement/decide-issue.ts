/** Whether a settlement sheet may be issued now. */
import type { LotNo } from '#lib/lot/number.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { countWords } from '#lib/result/text.ts';
import type { Stage } from '#lib/sale/facts.ts';
import { decideAfterHammer, decideSeen } from '#lib/sale/stage.ts';
import { listed } from './spelling.ts';

export const ISSUE_QUESTIONS = ['lots_not_called'] as const;
export type IssueQuestion = (typeof ISSUE_QUESTIONS)[number];

export interface IssueContext {
  readonly sellerNo: number;
  readonly issuedNumber: number | null;
  readonly lots: number;
  readonly waiting: readonly LotNo[];
}

export function decideIssueStage(stage: Stage): Result<null> {
  return decideAfterHammer(stage, 'no sheet is issued');
}

/**
 * While the sale runs, a seller's lots are called first. Once it is settling, a lot that was not called stays with its
 * seller: whether the sheet goes out without it is asked.
 */
export function decideIssue(
  stage: Stage,
  context: IssueContext,
  answered: readonly IssueQuestion[] = [],
): Result<null> {
  const { sellerNo, issuedNumber, waiting } = context;
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
  if (waiting.length > 0 && !answered.includes('lots_not_called')) {
    const has = waiting.length === 1 ? 'has' : 'have';
    const message = `${countWords(waiting.length, 'lot')} of seller number ${sellerNo} ${has} not been called: ${listed(waiting)}. Issue the sheet anyway?`;
    return refuse('needs_answer', message, 'lots_not_called');
  }
  return accept(null);
}

export interface IssuableSheets<T> {
  readonly ready: readonly T[];
  /** Those that get none for now, because they have lots that were not called. */
  readonly skipped: readonly T[];
}

/** Those of a whole sale whose sheets can be issued now; `seen` is how many sheets the person who asks has seen. */
export function decideIssueAll<T extends IssueContext>(
  stage: Stage,
  sellers: readonly T[],
  seen: number | null,
): Result<IssuableSheets<T>> {
  const allowed = decideIssueStage(stage);
  if (!allowed.ok) return allowed;
  const open = sellers.filter(({ issuedNumber }) => issuedNumber === null);
  if (open.length === 0) {
    const what = sellers.length === 0 ? 'This sale has no seller numbers' : 'Every seller number has its sheet';
    return refuse('already', `${what}: there is nothing to issue.`, 'sellerNo');
  }
  // Somebody who has just come in may still bring lots, and a sheet cannot be taken back.
  const ready = open.filter((context) => decideIssue(stage, context).ok && (stage !== 'selling' || context.lots > 0));
  if (ready.length === 0) {
    const message =
      stage === 'selling'
        ? 'Every seller number without a sheet has lots still to be called, or none yet. Call them, or take the sale to settling.'
        : 'Every seller number without a sheet has lots that have not been called. Go back to selling to call or withdraw them, or issue each sheet by itself.';
    return refuse('wrong_stage', message, 'sellerNo');
  }
  const looked = decideSeen(ready.length, seen, 'sheet');
  return looked.ok ? accept({ ready, skipped: open.filter(({ waiting }) => waiting.length > 0) }) : looked;
}
