/** Whether something can be done with the drawer now. */
import type { Denomination, Pieces } from '#lib/drawer/denominations.ts';
import type { DrawerKind } from '#lib/drawer/reckon.ts';
import type { Stage } from '#lib/facts.ts';
import { type Cents, showMoney } from '#lib/money.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

export interface DrawerScene {
  readonly stage: Stage;
  readonly open: boolean;
  readonly denominations: readonly Denomination[];
}

export interface DrawerAct {
  readonly kind: DrawerKind;
  readonly pieces: readonly Pieces[];
  /** Checks, cards and other, null where nothing was said. */
  readonly beside: readonly (Cents | null)[];
}

export function decideDrawer({ stage, open, denominations }: DrawerScene, act: DrawerAct): Result<null> {
  if (stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'saleId');
  if (act.kind === 'opened' && open) {
    return refuse('already', 'The drawer is open already: count it, or close it first.', 'kind');
  }
  if (act.kind !== 'opened' && !open) {
    return refuse('not_allowed', 'The drawer is not open: open it with what lies in it first.', 'kind');
  }
  const known = new Set(denominations.map(({ cents }) => cents));
  const strange = act.pieces.find(({ denominationCents }) => !known.has(denominationCents));
  if (strange) {
    const message = `There is no note or coin of ${showMoney(strange.denominationCents)}: enter it by what there is.`;
    return refuse('malformed', message, 'pieces');
  }
  if (new Set(act.pieces.map(({ denominationCents }) => denominationCents)).size < act.pieces.length) {
    return refuse('malformed', 'A note or coin is entered twice: enter each once, with how many there are.', 'pieces');
  }
  const moves = act.kind === 'added' || act.kind === 'taken';
  if (moves && act.pieces.length === 0 && act.beside.every((amount) => amount === null)) {
    return refuse('missing', `Enter what was ${act.kind === 'added' ? 'put in' : 'taken out'}.`, 'pieces');
  }
  return accept(null);
}

export interface DrawerVoidScene {
  readonly stage: Stage;
  /** The row is itself the voiding of another, or was voided. */
  readonly voids: boolean;
  readonly voided: boolean;
  /** A later entry of the drawer stands: taking an earlier one back would change what it was counted against. */
  readonly newest: boolean;
}

/** Only the newest entry can be taken back, so that no count loses what it was counted against. */
export function decideDrawerVoid({ stage, voids, voided, newest }: DrawerVoidScene): Result<null> {
  if (stage === 'closed') return refuse('wrong_stage', 'The sale is closed: reopen it first.', 'entryId');
  if (voids) return refuse('not_allowed', 'This row takes an entry back and cannot be voided itself.', 'entryId');
  if (voided) return refuse('already', 'This entry was already voided.', 'entryId');
  if (newest) return accept(null);
  return refuse(
    'not_allowed',
    'Only the newest entry of the drawer can be voided: void those after it first.',
    'entryId',
  );
}
