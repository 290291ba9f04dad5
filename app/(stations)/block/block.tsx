'use client';

import { type ReactNode, Suspense, useEffect, useMemo, useState } from 'react';
import { Notice } from '#app/ui/notice.tsx';
import type { BlockView } from '#db/queries/block-view.ts';
import { CallForm } from './call-form.tsx';
import { handOnKeys, holdKeys } from './held-keys.ts';
import { LastTen } from './last-ten.tsx';
import { LotUp } from './lot-up.tsx';
import type { LastRow } from './model.ts';
import { NextFive } from './next-five.tsx';
import { OnItsWay } from './on-its-way.tsx';
import type { Opened } from './opened.ts';
import { useBlock } from './use-block.ts';
import { Below, useBoxes } from './use-boxes.ts';
import { useCall } from './use-call.ts';

interface BlockProps {
  readonly first: BlockView;
  /** What the server draws once: the way to written bids, and the papers. */
  readonly written: ReactNode;
  readonly papers: ReactNode;
}

/** The clerk's table: the lot that is up in the middle, what just happened beside it, what comes next under it. */
export function Block({ first, written, papers }: BlockProps) {
  const ground = useBlock(first);
  const call = useCall(ground);
  const boxes = useBoxes();
  const [opened, setOpened] = useState<Opened>();
  const { view, model, tell } = ground;
  // By now whatever was opened or closed has put the cursor into its field.
  useEffect(() => {
    if (!opened || boxes) handOnKeys();
  }, [opened, boxes]);
  // Drawn anew with the view only: a keystroke that drew it before its code is here would take it off the page.
  const below = useMemo(
    () => (
      <Suspense>
        <Below {...{ view, tell, papers }} />
      </Suspense>
    ),
    [view, tell, papers],
  );
  const open = (one: Opened) => {
    holdKeys();
    setOpened(one);
  };
  const close = () => setOpened(undefined);
  const putRight = (row = model.last[0]) => {
    if (row) open({ kind: 'right', row });
    else call.say('Nothing was called yet.');
  };
  return (
    <div className="table-top" data-boxes={boxes && 'here'}>
      <div>
        {boxes && (
          <boxes.CameBack
            model={model}
            letGo={ground.letGo}
            putRight={(row, cameBack) => open({ kind: 'right', row, cameBack })}
            chooseAgain={(cameBack) => open({ kind: 'choice', cameBack })}
          />
        )}
        {view.stage !== 'selling' && <NotSelling stage={view.stage} />}
        {written}
        <section className="sheet" aria-label="The lot that is up">
          {call.lot ? <LotUp lot={call.lot} gone={goneRow(call.inHand?.lotNo, ground)} /> : <NoLot view={view} />}
          {opened && !boxes && <OnItsWay close={close} />}
          {opened && boxes && <boxes.OpenedBox {...{ opened, ground, close, putRight }} />}
          <CallForm
            call={call}
            buyers={view.buyers}
            hidden={opened !== undefined}
            putRight={() => putRight()}
            open={open}
          />
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

function NotSelling({ stage }: Pick<BlockView, 'stage'>) {
  const next =
    stage === 'planned' || stage === 'intake' ? 'Start the sale on the Sale page.' : 'No lot is called any more.';
  return <Notice kind="wait" title={`The sale is in the stage “${stage}”. ${next}`} />;
}

function NoLot({ view }: { readonly view: BlockView }) {
  return (
    <>
      <h1>Block</h1>
      <p>{whyNoLot(view)}</p>
    </>
  );
}

function whyNoLot({ ahead, last }: BlockView): string {
  // The view has lots, and this browser has called them all: the next ones come with the next view.
  if (ahead.length > 0) return OUT_OF_LOTS;
  return last.length > 0 ? 'Every lot has been called.' : 'No lot has been checked in yet.';
}

const OUT_OF_LOTS =
  'Every lot that this screen knows of is called. The next ones come as soon as the server answers; until then write on a block sheet.';
