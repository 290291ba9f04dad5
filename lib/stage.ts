/** The stages of a sale, in the order in which the day goes through them. */
import type { Stage } from '#lib/facts.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

export const STAGES = ['planned', 'intake', 'selling', 'settling', 'closed'] as const satisfies readonly Stage[];

const NEXT: Readonly<Record<Stage, readonly Stage[]>> = {
  planned: ['intake'],
  intake: ['selling'],
  selling: ['settling', 'intake'],
  settling: ['closed', 'selling'],
  closed: ['settling'],
};

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

/** Once the bidding has ended no lot is called: while some are left, their number has to be typed. */
export function decideEndBidding(left: number, typed: number | null): Result<null> {
  if (left === 0 || typed === left) return accept(null);
  const what = left === 1 ? '1 lot has' : `${left} lots have`;
  const message = `${what} not been called. Type ${left} to end the bidding anyway, or go on selling.`;
  return refuse(typed === null ? 'needs_answer' : 'conflict', message, 'left');
}
