'use client';

import Link from 'next/link';
import { useState } from 'react';
import { Notice } from '#app/ui/notice.tsx';
import type { Entry } from '#app/ui/outbox-store.ts';
import type { BlockView } from '#db/queries/block-view.ts';
import { Afternoon } from './afternoon.tsx';
import { ByNumber } from './by-number.tsx';
import { type BoxKind, CallForm } from './call-form.tsx';
import { CameBack } from './came-back.tsx';
import { Choice } from './choice.tsx';
import { Divide } from './divide.tsx';
import { LastTen } from './last-ten.tsx';
import { LotUp } from './lot-up.tsx';
import type { LastRow } from './model.ts';
import { NextFive } from './next-five.tsx';
import { OrderChoice } from './order-choice.tsx';
import { BlockPapers } from './papers.tsx';
import { PutRight } from './put-right.tsx';
import { UnderBid } from './under-bid.tsx';
import { useBlock } from './use-block.ts';
import { useCall } from './use-call.ts';

type Aside =
  | { readonly kind: 'right'; readonly row: LastRow; readonly cameBack?: Entry }
  | { readonly kind: 'number'; readonly scanned: string }
  | { readonly kind: BoxKind; readonly cameBack?: Entry };

/** The clerk's table: the lot that is up in the middle, what just happened beside it, what comes next under it. */
export function Block({ first }: { readonly first: BlockView }) {
  const ground = useBlock(first);
  const call = useCall(ground);
  const [aside, setAside] = useState<Aside>();
  const { view, model } = ground;
  const close = () => {
    setAside(undefined);
    call.priceField.current?.focus();
  };
  const putRight = (row = model.last[0]) => {
    if (row) setAside({ kind: 'right', row });
    else call.say('Nothing was called yet.');
  };
  return (
    <div className="table-top">
      <div>
        <CameBack
          model={model}
          letGo={ground.letGo}
          putRight={(row, cameBack) => setAside({ kind: 'right', row, cameBack })}
          chooseAgain={(cameBack) => setAside({ kind: 'choice', cameBack })}
        />
        {view.stage !== 'selling' && <NotSelling stage={view.stage} />}
        {view.bidding === 'sealed' && <WrittenBids saleId={view.saleId} />}
        <section className="sheet" aria-label="The lot that is up">
          {call.lot ? <LotUp lot={call.lot} gone={goneRow(call.inHand?.lotNo, ground)} /> : <NoLot view={view} />}
          {aside?.kind === 'right' && (
            <PutRight
              key={`${aside.row.lotId} ${aside.cameBack?.key}`}
              row={model.last.find(({ lotId }) => lotId === aside.row.lotId) ?? aside.row}
              cameBack={aside.cameBack}
              {...{ ground, close, open: putRight }}
            />
          )}
          {aside?.kind === 'number' && <ByNumber {...{ ground, close, putRight, scanned: aside.scanned }} />}
          {aside?.kind === 'choice' && <Choice {...{ ground, close, cameBack: aside.cameBack }} />}
          {aside?.kind === 'divide' && call.lot && <Divide lot={call.lot} close={close} />}
          {aside?.kind === 'under' && <UnderBid {...{ ground, close }} />}
          <CallForm
            call={call}
            buyers={view.buyers}
            hidden={aside !== undefined}
            putRight={() => putRight()}
            byNumber={(scanned = '') => setAside({ kind: 'number', scanned })}
            openBox={(kind) => setAside({ kind })}
          />
        </section>
      </div>
      <aside className="aside">
        <LastTen rows={model.last} putRight={putRight} />
      </aside>
      <div className="below block-below">
        <div>
          <NextFive lots={model.ahead.filter((lot) => lot.lotNo !== call.lot?.lotNo).slice(0, 5)} />
          {view.stage !== 'closed' && <OrderChoice ground={ground} />}
          <BlockPapers saleId={view.saleId} />
        </div>
        <Afternoon glance={view.glance} />
      </div>
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

function WrittenBids({ saleId }: Pick<BlockView, 'saleId'>) {
  return (
    <Notice kind="plain" title="This sale goes by written bids.">
      <p>
        <Link href={`/block/written?sale=${saleId}`}>Enter the bid sheets, close the bids and award the lots</Link>
      </p>
    </Notice>
  );
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
