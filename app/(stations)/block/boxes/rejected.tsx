import { KeyAct } from '#app/(stations)/block/lot-up.tsx';
import type { BlockModel, LastRow, TypedOutcome } from '#app/(stations)/block/model.ts';
import type { PutRightEntry } from '#app/(stations)/block/use-block.ts';
import { lotOf } from '#app/(stations)/block/use-call.ts';
import { Notice } from '#app/ui/notice.tsx';
import { whatBecameOf } from '#app/ui/outbox.ts';
import type { Entry } from '#app/ui/outbox-store.ts';
import type { BlockLot } from '#db/outcome/block-view.ts';

interface RejectedProps {
  readonly model: BlockModel;
  /** The lots whose refused entries go back into the form by themselves. */
  readonly ahead: readonly BlockLot[];
  readonly discard: (entryId: number) => void;
  readonly putRight: (row: LastRow, entry: PutRightEntry) => void;
  readonly chooseAgain: (entry: Entry<'outcome.choice'>) => void;
}

/** Refused entries whose lot is not to be called here any more: what was typed, why it was refused, and the way on. */
export function Rejected({ model, ahead, discard, putRight, chooseAgain }: RejectedProps) {
  const lost = model.rejected.filter((entry) => !lotOf(entry, ahead));
  return lost.map((entry) => {
    const row = model.last.find((one) => isAbout(one, entry));
    return (
      <Notice key={entry.key} kind="stop" title={`${whatBecameOf(entry)} ${entry.refusal?.message ?? ''}`}>
        <p>You typed: {typedWords(entry)}</p>
        <div className="acts">
          {row && isAbout(row, entry) && (
            <KeyAct words={`Put lot ${row.lotNo} right with it`} act={() => putRight(row, entry)} />
          )}
          {entry.command === 'outcome.choice' && <KeyAct words="Enter it again" act={() => chooseAgain(entry)} />}
          <KeyAct words="I have read it" act={() => entry.id && discard(entry.id)} />
        </div>
      </Notice>
    );
  });
}

/** Whether the entry says what this lot brought. */
function isAbout({ lotNo, lotId }: LastRow, entry: Entry): entry is PutRightEntry {
  const { command, input } = entry;
  return command === 'outcome.record' ? input.lotNo === lotNo : command === 'outcome.correct' && input.lotId === lotId;
}

function typedWords({ command, input }: Entry): string {
  switch (command) {
    case 'outcome.record':
    case 'outcome.correct':
      return broughtWords(input);
    case 'outcome.choice':
      return `${input.lots.replaceAll('+', ', ')}: ${broughtWords(input)}`;
    case 'bid.leave':
      return broughtWords({ ...input, kind: 'sold' });
    case 'lot.skip':
      return 'skip.';
    case 'lot.place':
      return 'put up or moved.';
    default:
      return 'nothing more.';
  }
}

/** Lots of a choice are sold. */
function broughtWords({ kind = 'sold', price, buyerNo }: Partial<TypedOutcome>): string {
  if (kind === 'bought_back') return `${price}, bought back.`;
  return kind === 'sold' ? `${price} to buyer ${buyerNo}.` : `${kind}.`;
}
