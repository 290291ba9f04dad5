'use client';

import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { GoodsChoice } from '#db/queries/goods-choices.ts';
import type { IntakeLot } from '#db/queries/intake-lots.ts';
import { type Line, lineOf, lotInput, type Stop } from './line.ts';
import { LineFields } from './line-fields.tsx';
import { elsewhere, stopOf, useLine } from './use-line.ts';

interface AmendLotProps {
  readonly lot: IntakeLot;
  readonly choices: readonly GoodsChoice[];
  readonly onDone: () => void;
}

/** The line of a lot typed anew, its tags with it. */
export function AmendLot({ lot, choices, onDone }: AmendLotProps) {
  const typing = useLine(lineOfLot(lot), choices);
  const { refusal } = typing;
  const { give, busy } = useGive('intake');
  const save = async (now: Line) => {
    if (busy) return;
    const input = lotInput(now, typing.goodsOf(now));
    if (!input.ok) return typing.goTo(stopOf(input), now, input);
    const { lotId, lotNo } = lot;
    const reply = await give({ command: 'lot.amend', input: { lotId, ...input.value }, label: `Lot ${lotNo}` });
    if (reply.ok) onDone();
    else typing.goTo(stopOf(reply), now, reply);
  };
  const goOn = (from: Stop, change: Partial<Line> = {}) => {
    const now = { ...typing.present.current, ...change };
    if (!typing.next(from, now)) void save(now);
  };
  return (
    <section className="sheet">
      <form
        aria-label={`Change lot ${lot.lotNo}`}
        onSubmit={(event) => {
          event.preventDefault();
          void save(typing.present.current);
        }}
      >
        <h2>Change what was said of it</h2>
        {elsewhere(refusal) && <Notice kind="stop" title={elsewhere(refusal) ?? ''} />}
        <LineFields {...typing} {...{ choices, goOn }} />
        <div className="acts">
          <button type="submit" className="act">
            Save the change
          </button>
        </div>
      </form>
    </section>
  );
}

function lineOfLot({ typed, goodsName, tags }: IntakeLot): Line {
  return {
    ...lineOf(typed, goodsName),
    tags: tags.map(({ tag }) => tag).join(', '),
    broken: tags.filter(({ condition }) => condition === 'broken').map(({ tag }) => tag),
  };
}
