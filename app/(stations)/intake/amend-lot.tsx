'use client';

import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { GoodsChoice } from '#db/queries/goods-choices.ts';
import type { IntakeLot } from '#db/queries/intake-lots.ts';
import { Question } from '../block/question.tsx';
import { type Line, lineOf } from './line.ts';
import { LineFields } from './line-fields.tsx';
import { fieldOf, useLine } from './use-line.ts';

interface AmendLotProps {
  readonly lot: IntakeLot;
  readonly choices: readonly GoodsChoice[];
  readonly onDone: () => void;
}

/** The line of a lot typed anew, its tags with it. */
export function AmendLot({ lot, choices, onDone }: AmendLotProps) {
  const typing = useLine(lineOfLot(lot), choices, (now) => void save(now));
  const { question, elsewhere } = typing;
  const { give, busy } = useGive('intake');
  const save = async (now: Line) => {
    if (busy) return;
    const said = typing.inputOf(
      now,
      lot.tags.map(({ tag }) => tag),
    );
    if (!said) return;
    const { lotId, lotNo } = lot;
    const reply = await give('lot.amend', { lotId, ...said }, `Lot ${lotNo}`);
    if (reply.ok) onDone();
    else typing.goTo(fieldOf(reply), now, reply);
  };
  return (
    <section className="sheet">
      <form
        onKeyDown={({ key }) => key === 'Escape' && question && typing.takeBack()}
        aria-label={`Change lot ${lot.lotNo}`}
        onSubmit={(event) => {
          event.preventDefault();
          void save(typing.present.current);
        }}
      >
        <h2>Change what was said of it</h2>
        {elsewhere && <Notice kind="stop" title={elsewhere} />}
        <LineFields {...typing} choices={choices} />
        {question && <Question message={question.message} />}
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
