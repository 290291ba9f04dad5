'use client';

import { lazy, type ReactNode, Suspense, useEffect, useMemo, useState } from 'react';
import { Notice } from '#app/ui/notice.tsx';
import type { BlockLot, BlockView } from '#db/outcome/block-view.ts';
import { CallForm } from './call-form.tsx';
import { bufferKeys, replayKeys, takeBufferedKeys } from './key-buffer.ts';
import { KeyAct, LastTen, LotUp } from './lot-up.tsx';
import type { LastRow } from './model.ts';
import { type Opened, useBlock } from './use-block.ts';
import { type Call, useCall } from './use-call.ts';

type Boxes = typeof import('#app/(stations)/block/boxes/boxes.tsx');

const TRY_AGAIN_MS = 1000;
const IDLE_WITHIN_MS = 1000;

let coming: Promise<Boxes> | undefined;

/** Fetched once; while the server does not answer, it is tried again until it does. */
function fetchBoxes(): Promise<Boxes> {
  coming ??= tryToFetch();
  return coming;
}

async function tryToFetch(): Promise<Boxes> {
  try {
    return await import('#app/(stations)/block/boxes/boxes.tsx');
  } catch {
    await new Promise((resolve) => setTimeout(resolve, TRY_AGAIN_MS));
    return tryToFetch();
  }
}

/** The server draws it with the page; in the browser it begins to listen when its code is here. */
const Below = lazy(async () => ({ default: (await fetchBoxes()).Below }));

/**
 * What a key opens at the Block: fetched as soon as the browser has nothing better to do, and not when the key is
 * pressed, because by then the line may be down. Undefined until it is here.
 */
function useBoxes(): Boxes | undefined {
  const [boxes, setBoxes] = useState<Boxes>();
  useEffect(() => whenIdle(() => void fetchBoxes().then(setBoxes)), []);
  return boxes;
}

/** Safari does not say when it is idle. */
function whenIdle(act: () => void): void {
  if (typeof requestIdleCallback === 'function') requestIdleCallback(act, { timeout: IDLE_WITHIN_MS });
  else setTimeout(act, IDLE_WITHIN_MS / 5);
}

interface BlockProps {
  readonly first: BlockView;
  /** What the server draws once: the way to written bids, the papers, and what is said of a box that is late. */
  readonly written: ReactNode;
  readonly papers: ReactNode;
  readonly late: ReactNode;
}

/** The clerk's table: the lot that is up in the middle, what just happened beside it, what comes next under it. */
export function Block({ first, written, papers, late }: BlockProps) {
  const context = useBlock(first);
  const call = useCall(context);
  const boxes = useBoxes();
  const [opened, setOpened] = useState<Opened>();
  const { view, model, submit } = context;
  // By now whatever was opened or closed has put the cursor into its field.
  useEffect(() => {
    if (!opened || boxes) replayKeys();
  }, [opened, boxes]);
  // Drawn anew with the view only: a keystroke that drew it before its code is here would take it off the page.
  const below = useMemo(
    () => (
      <Suspense>
        <Below {...{ view, submit, papers }} />
      </Suspense>
    ),
    [view, submit, papers],
  );
  const open = (one: Opened) => {
    bufferKeys();
    setOpened(one);
  };
  const close = () => setOpened(undefined);
  const selling = view.stage === 'selling';
  const putRight = (row = model.last[0]) => {
    if (row) open({ kind: 'right', row });
    else call.say('Nothing was called yet.');
  };
  return (
    <div className="table-top" data-boxes={boxes && 'here'}>
      <div>
        {boxes && (
          <boxes.Rejected
            model={model}
            ahead={selling ? model.ahead : []}
            discard={context.discard}
            putRight={(row, rejected) => open({ kind: 'right', row, rejected })}
            chooseAgain={(rejected) => open({ kind: 'choice', rejected })}
          />
        )}
        {written}
        <section className="sheet" aria-label="The lot that is up">
          {selling && call.lot ? (
            <LotUp lot={call.lot} gone={goneRow(call.inHand?.lotNo, context)} />
          ) : (
            <NoLot {...{ view, call }} open={opened ? undefined : open} />
          )}
          {opened && !boxes && <OnItsWay {...{ late, close }} />}
          {opened && boxes && <boxes.OpenedBox {...{ opened, context, close, putRight }} />}
          {selling && (
            <CallForm
              call={call}
              buyers={view.buyers}
              hidden={opened !== undefined}
              putRight={() => putRight()}
              open={open}
            />
          )}
        </section>
        <NextFive lots={model.ahead.filter((lot) => lot.lotNo !== call.lot?.lotNo).slice(0, 5)} />
      </div>
      <aside className="aside">
        <LastTen rows={model.last} putRight={putRight} />
      </aside>
      <div className="below block-below">{below}</div>
    </div>
  );
}

/** The outcome that somebody else has taken down for the lot in hand, or undefined. */
function goneRow(lotNo: string | undefined, { model }: ReturnType<typeof useBlock>): LastRow | undefined {
  if (lotNo === undefined || model.ahead.some((lot) => lot.lotNo === lotNo)) return undefined;
  return model.last.find((row) => row.lotNo === lotNo);
}

interface NoLotProps {
  readonly view: BlockView;
  readonly call: Call;
  /** Opens a box; undefined while one stands here. */
  readonly open: ((opened: Opened) => void) | undefined;
}

/** In the place of the lot that is up: why there is none, what to do, and what can be done all the same. */
function NoLot({ view: { stage, whyNone }, call: { inHand, draft, typed }, open }: NoLotProps) {
  return (
    <>
      <h1>Block</h1>
      <Notice kind="wait" title={whyNone} />
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

/** In the place of a box that the server has not sent yet: it is fetched when the page is opened, unless the line is down. */
function OnItsWay({ late, close }: { readonly late: ReactNode; readonly close: () => void }) {
  const leave = () => {
    takeBufferedKeys();
    close();
  };
  return (
    <div className="notice" data-kind="wait" role="status">
      {late}
      {/* biome-ignore lint/a11y/noAutofocus: The fields are hidden now, and Escape is to be heard. */}
      <button type="button" autoFocus onClick={leave} onKeyDown={({ key }) => key === 'Escape' && leave()}>
        <kbd>Esc</kbd> Leave it
      </button>
    </div>
  );
}

/** What comes next, so that the ring man has it in his hands in time. */
function NextFive({ lots }: { readonly lots: readonly BlockLot[] }) {
  return (
    <section className="below" aria-labelledby="next-five">
      <h2 id="next-five">Next</h2>
      {lots.length === 0 && <p className="soft">No lot is left behind this one.</p>}
      <ol className="next-five">
        {lots.map((lot) => (
          <li key={lot.lotId}>
            <strong>Lot {lot.lotNo}</strong> {lot.quantity} {lot.goodsName}
            <span className="soft small">
              Seller {lot.sellerNo}
              {lot.scene.holds.length > 0 && ', on hold'}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}
