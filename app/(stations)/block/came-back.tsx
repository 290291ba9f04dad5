import { Notice } from '#app/ui/notice.tsx';
import type { Entry } from '#app/ui/outbox-store.ts';
import type { BlockLot } from '#db/queries/block-view.ts';
import type { RecordInput } from './model.ts';
import { lotOf } from './use-call.ts';

interface CameBackProps {
  readonly entries: readonly Entry[];
  readonly ahead: readonly BlockLot[];
  readonly letGo: (entryId: number) => void;
}

/** Refused entries whose lot is not to be called here any more: what was typed and why it was refused. */
export function CameBack({ entries, ahead, letGo }: CameBackProps) {
  const lost = entries.filter((entry) => !lotOf(entry, ahead));
  return lost.map((entry) => (
    <Notice key={entry.key} kind="stop" title={`${entry.label} was refused. ${entry.refusal?.message ?? ''}`}>
      <p>You typed: {typedWords(entry)}</p>
      <button type="button" onClick={() => entry.id !== undefined && letGo(entry.id)}>
        I have read it
      </button>
    </Notice>
  ));
}

function typedWords({ command, input }: Entry): string {
  if (command === 'lot.skip') return 'skip.';
  if (command === 'lot.place') return 'put up now.';
  const { kind, price, buyerNo } = input as RecordInput;
  return kind === 'sold' ? `${price} to buyer ${buyerNo}.` : `${kind}.`;
}
