'use client';

import { type ReactNode, Suspense, useEffect, useMemo, useState } from 'react';
import type { BlockView } from '#db/queries/block-view.ts';
import { CallForm } from './call-form.tsx';
import { handOnKeys, holdKeys } from './held-keys.ts';
import { LastTen } from './last-ten.tsx';
import { LotUp } from './lot-up.tsx';
import type { LastRow } from './model.ts';
import { NextFive } from './next-five.tsx';
import { NoLot } from './no-lot.tsx';
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
  const selling = view.stage === 'selling';
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
            ahead={selling ? model.ahead : []}
            letGo={ground.letGo}
            putRight={(row, cameBack) => open({ kind: 'right', row, cameBack })}
            chooseAgain={(cameBack) => open({ kind: 'choice', cameBack })}
          />
        )}
        {written}
        <section className="sheet" aria-label="The lot that is up">
          {selling && call.lot ? (
            <LotUp lot={call.lot} gone={goneRow(call.inHand?.lotNo, ground)} />
          ) : (
            <NoLot {...{ view, call }} open={opened ? undefined : open} />
          )}
          {opened && !boxes && <OnItsWay close={close} />}
          {opened && boxes && <boxes.OpenedBox {...{ opened, ground, close, putRight }} />}
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
