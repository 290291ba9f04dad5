/** The stages of a sale, in the order in which the day goes through them. */
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { countWords } from '#lib/result/text.ts';
import type { Stage } from './facts.ts';

export const STAGES = ['planned', 'intake', 'selling', 'settling', 'closed'] as const satisfies readonly Stage[];

const NEXT: Readonly<Record<Stage, readonly Stage[]>> = {
  planned: ['intake'],
  intake: ['selling'],
  selling: ['settling', 'intake'],
  settling: ['closed', 'selling'],
  closed: ['settling'],
};

/** What the office is asked before a sale is closed with something left that no figure of its report depends on. */
export const CLOSE_QUESTIONS = ['lots_not_handed', 'sellers_without_sheet'] as const;
export type CloseQuestion = (typeof CLOSE_QUESTIONS)[number];

/** Decides a step from one stage to the next, or a step back, which wants a reason. */
export function decideStage(from: Stage, to: Stage, reason: string): Result<null> {
  if (from === to) return refuse('already', `The sale is already in the stage “${to}”.`, 'stage');
  if (!NEXT[from].includes(to)) {
    return refuse('wrong_stage', `From “${from}” the sale goes to ${NEXT[from].join(' or back to ')}.`, 'stage');
  }
  const back = STAGES.indexOf(to) < STAGES.indexOf(from);
  if (back && reason.trim() === '') return refuse('missing', 'Say why the sale goes back a stage.', 'reason');
  return accept(null);
}

/** What follows the hammer is done while the sale sells or settles; `what` says what is not done in any other stage. */
export function decideAfterHammer(stage: Stage, what: string): Result<null> {
  if (stage === 'selling' || stage === 'settling') return accept(null);
  const next = stage === 'closed' ? 'It is closed: reopen it first.' : 'Sell the lots first.';
  return refuse('wrong_stage', `The sale is in the stage “${stage}”, where ${what}. ${next}`, 'saleId');
}

/** Once the bidding has ended no lot is called: while some are left, their number has to be typed. */
export function decideEndBidding(left: number, typed: number | null): Result<null> {
  if (left === 0 || typed === left) return accept(null);
  const what = left === 1 ? '1 lot has' : `${left} lots have`;
  const message = `${what} not been called. Type ${left} to end the bidding anyway, or go on selling.`;
  return refuse(typed === null ? 'needs_answer' : 'conflict', message, 'left');
}

/**
 * An act on everybody is done to as many as the person who gives it has seen, and to nobody else. `now` is how many there
 * are, `seen` how many the person has seen, null where nobody has looked.
 */
export function decideSeen(now: number, seen: number | null, what: string): Result<null> {
  if (seen === now) return accept(null);
  const words = countWords(now, what);
  if (seen === null)
    return refuse('needs_answer', `This makes ${words}. Look at them first, and say how many.`, 'seen');
  return refuse('conflict', `It is now ${words}, not ${seen}. Look at them and answer again.`, 'seen');
}
