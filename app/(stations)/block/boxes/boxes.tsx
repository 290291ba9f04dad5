/** All that is fetched behind the Block's first code: what a key opens, what is said of refused entries, what stands below. */

import type { LastRow } from '../model.ts';
import type { Opened } from '../opened.ts';
import type { BlockGround } from '../use-block.ts';
import { ByNumber } from './by-number.tsx';
import { Choice } from './choice.tsx';
import { Divide } from './divide.tsx';
import { PutRight } from './put-right.tsx';
import { UnderBid } from './under-bid.tsx';

export { Below } from './below.tsx';
export { CameBack } from './came-back.tsx';

interface OpenedBoxProps {
  readonly opened: Opened;
  readonly ground: BlockGround;
  readonly close: () => void;
  readonly putRight: (row?: LastRow) => void;
}

/** The box that was opened, in the place of price and buyer. */
export function OpenedBox({ opened, ground, close, putRight }: OpenedBoxProps) {
  switch (opened.kind) {
    case 'right': {
      const { row, cameBack } = opened;
      const now = ground.model.last.find(({ lotId }) => lotId === row.lotId) ?? row;
      return (
        <PutRight key={`${row.lotId} ${cameBack?.key}`} row={now} {...{ cameBack, ground, close, open: putRight }} />
      );
    }
    case 'number':
      return <ByNumber scanned={opened.scanned} {...{ ground, close, putRight }} />;
    case 'choice':
      return <Choice cameBack={opened.cameBack} {...{ ground, close }} />;
    case 'divide':
      return <Divide lot={opened.lot} {...{ ground, close }} />;
    case 'under':
      return <UnderBid {...{ ground, close }} />;
  }
}
