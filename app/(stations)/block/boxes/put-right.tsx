'use client';

import type { KeyboardEvent } from 'react';
import { KeyAct } from '../key-act.tsx';
import type { LastRow } from '../model.ts';
import type { PutRightEntry } from '../opened.ts';
import { outcomeWords } from '../outcome-words.ts';
import { Refused } from '../question.tsx';
import type { BlockGround } from '../use-block.ts';
import { PutRightFields } from './put-right-fields.tsx';
import { usePutRight } from './use-put-right.ts';

export interface PutRightProps {
  readonly row: LastRow;
  readonly ground: BlockGround;
  readonly close: () => void;
  readonly open: (row: LastRow | undefined) => void;
  /** A refused entry about this lot, whose text is taken up again. */
  readonly cameBack: PutRightEntry | undefined;
}

/** Puts a lot right by a further outcome with a reason: price, buyer, reason, each by Enter. Both outcomes are kept. */
export function PutRight(props: PutRightProps) {
  const { row, ground, close, open } = props;
  const right = usePutRight(props);
  const { said, refusal, question, card, fields, unsold } = right;
  const { last } = ground.model;
  const older = last[last.findIndex(({ lotId }) => lotId === row.lotId) + 1];
  const toOlder = () => {
    if (right.typed) right.say(`Save lot ${row.lotNo} first. Esc keeps it.`);
    else if (older) open(older);
    else right.say('For an earlier lot: Esc, then +.');
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const inFigures = [fields.price.current, fields.buyer.current].some((field) => field === event.target);
    const acts: Readonly<Record<string, () => void>> = {
      '*': () => unsold('passed'),
      '-': toOlder,
    };
    const leave = question || right.told ? right.back : close;
    const act = event.key === 'Escape' ? leave : inFigures ? acts[event.key] : undefined;
    if (!act) return;
    event.preventDefault();
    act();
  };
  return (
    <form
      className="call put-right"
      noValidate
      aria-labelledby="put-right"
      onKeyDown={onKeyDown}
      onSubmit={(event) => {
        event.preventDefault();
        right.enter();
      }}
    >
      <h2 id="put-right">Put lot {row.lotNo} right</h2>
      <p>
        It is {outcomeWords(row)}. <span className="soft">Both are kept, with the reason.</span>
      </p>
      {card?.touches.map((sentence) => (
        <p key={sentence}>
          <strong>{sentence}</strong>
        </p>
      ))}
      <PutRightFields right={right} measured={row.measured} buyers={ground.view.buyers} />
      <p className="call-said" role="status">
        {right.told}
      </p>
      <Refused refusal={refusal} question={question} drawn={['price', 'buyerNo', 'reason']} />
      <div className="acts">
        <button type="submit" className="act">
          Save
        </button>
        {said.kind !== 'passed' && <KeyAct sign="*" words="No-sale" act={() => unsold('passed')} />}
        {said.kind !== 'withdrawn' && <KeyAct words="Withdrawn" act={() => unsold('withdrawn')} />}
        {ground.view.stage === 'selling' && <KeyAct words="Open the bidding again" act={right.reopen} />}
        {older && <KeyAct sign="−" words={`Lot ${older.lotNo} instead`} act={toOlder} />}
        <KeyAct sign="Esc" words="Leave it" act={close} />
      </div>
    </form>
  );
}
