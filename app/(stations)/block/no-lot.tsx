import { Notice } from '#app/ui/notice.tsx';
import type { BlockView } from '#db/queries/block-view.ts';
import { KeyAct } from './key-act.tsx';
import type { Opened } from './opened.ts';
import type { Call } from './use-call.ts';

interface NoLotProps {
  readonly view: BlockView;
  readonly call: Call;
  /** Opens a box; undefined while one stands here. */
  readonly open: ((opened: Opened) => void) | undefined;
}

/** In the place of the lot that is up: why there is none, what to do, and what can be done all the same. */
export function NoLot({ view: { stage, whyNone }, call: { inHand, draft, typed }, open }: NoLotProps) {
  return (
    <>
      <h1>Block</h1>
      <Notice kind="wait" title={whyNone || OUT_OF_LOTS} />
      {stage !== 'selling' && typed && (
        <p>
          Not saved: lot {inHand?.lotNo}, price {draft.price}.
        </p>
      )}
      {open && stage !== 'selling' && (
        <div className="acts">
          <KeyAct words="Lot by number" act={() => open({ kind: 'number', scanned: '' })} />
          <KeyAct words="Note the under-bid" act={() => open({ kind: 'under' })} />
        </div>
      )}
    </>
  );
}

// The view has lots, and this browser has called them all: the next ones come with the next view.
const OUT_OF_LOTS = 'Every lot that this screen knows of is called. Until the server answers, use a block sheet.';
