'use client';

import { useRouter } from 'next/navigation';
import { type ReactNode, useState } from 'react';
import { Question } from '#app/(stations)/block/question.tsx';
import { TextField } from '#app/ui/field.tsx';
import { Form, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { type TypedInput, wholeNumber } from '#app/ui/text-field.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { CommandName, InputOf } from '#db/commands.ts';
import type { IntakeLot } from '#db/lot/queries.ts';
import type { GoodsChoice } from '#db/sale/goods.ts';
import { type IntakeRow, toRow } from './row.ts';
import { RowFields } from './row-fields.tsx';
import { rowFieldOf, useRow } from './use-row.ts';

interface LotChangesProps {
  readonly lot: IntakeLot;
  readonly choices: readonly GoodsChoice[];
  readonly saleId: number;
}

/** What can be done with a lot until it is called; each change is a row of the log. */
export function LotChanges({ lot, choices, saleId }: LotChangesProps) {
  const router = useRouter();
  const byWeight = ['lb', 'oz'].includes(lot.typed.by);
  const toSeller = (sellerNo: number) => router.push(`/intake/seller/${sellerNo}?sale=${saleId}`);
  return (
    <>
      <AmendLot lot={lot} choices={choices} onDone={() => toSeller(lot.sellerNo)} />
      <div className="one-field">
        <OneField
          title="Divide it"
          command="lot.divide"
          field="parts"
          label={byWeight ? `Weight of each part in ${lot.typed.by}` : 'Pieces of each part'}
          hint={`With commas, such as 350, 50; together they are ${byWeight ? lot.typed.weight : lot.typed.count}. Tags go along in their order.`}
          act="Divide the lot"
          input={(text) => ({ lotId: lot.lotId, parts: partsOf(text, byWeight) })}
          onDone={() => toSeller(lot.sellerNo)}
        />
        <OneField
          title="Join another lot to it"
          command="lot.join"
          field="other"
          label="Number of the other lot"
          hint={`Its pieces and tags come to lot ${lot.lotNo}, and its number is no more: take its ticket off.`}
          act="Join the lots"
          input={(text) => ({ lotId: lot.lotId, other: text.trim() })}
          onDone={() => toSeller(lot.sellerNo)}
        />
        <OneField
          title="Move it to another seller"
          command="lot.move"
          field="sellerNo"
          label="Seller number"
          act="Move the lot"
          input={(text) => ({ lotId: lot.lotId, sellerNo: wholeNumber(text) })}
          onDone={(text) => toSeller(Number.parseInt(text, 10))}
        />
        <OneField
          title="Withdraw it"
          command="lot.withdraw"
          field="reason"
          label="Why it is withdrawn"
          hint="The lot keeps its number and is not called."
          act="Withdraw the lot"
          input={(reason) => ({ lotId: lot.lotId, reason })}
          onDone={() => toSeller(lot.sellerNo)}
        />
      </div>
    </>
  );
}

interface OneFieldProps<N extends CommandName> {
  readonly title: string;
  readonly command: N;
  readonly field: string;
  readonly label: string;
  readonly hint?: string;
  readonly act: string;
  readonly input: (text: string) => TypedInput<N>;
  readonly onDone: (text: string) => void;
}

/** A change that asks one thing. */
function OneField<N extends CommandName>(props: OneFieldProps<N>): ReactNode {
  const { title, command, field, label, hint, act, input, onDone } = props;
  const [text, setText] = useState('');
  const { give, busy, refusal } = useGive('intake');
  const change = async () => {
    const reply = await give(command, input(text), act);
    if (reply.ok) onDone(text);
  };
  const here = refusal?.field?.split('.')[0] === field;
  return (
    <section className="sheet">
      <Form onEntered={change} busy={busy} aria-label={title}>
        <h2>{title}</h2>
        {refusal && !here && <Notice kind="stop" title={refusal.message} />}
        <TextField
          label={label}
          hint={hint}
          error={here ? refusal?.message : undefined}
          value={text}
          onText={setText}
        />
        <SubmitActs label={act} />
      </Form>
    </section>
  );
}

function partsOf(text: string, byWeight: boolean): InputOf<'lot.divide'>['parts'] {
  const figures = text
    .split(/[,;\s]+/)
    .map((figure) => figure.trim())
    .filter(Boolean);
  return figures.map((figure) => ({ [byWeight ? 'weight' : 'count']: figure }));
}

interface AmendLotProps {
  readonly lot: IntakeLot;
  readonly choices: readonly GoodsChoice[];
  readonly onDone: () => void;
}

/** The row of a lot typed anew, its tags with it. */
function AmendLot({ lot, choices, onDone }: AmendLotProps) {
  const typing = useRow(rowOfLot(lot), choices, (now) => void save(now));
  const { question, elsewhere } = typing;
  const { give, busy } = useGive('intake');
  const save = async (now: IntakeRow) => {
    if (busy) return;
    const said = typing.inputOf(
      now,
      lot.tags.map(({ tag }) => tag),
    );
    if (!said) return;
    const { lotId, lotNo } = lot;
    const reply = await give('lot.amend', { lotId, ...said }, `Lot ${lotNo}`);
    if (reply.ok) onDone();
    else typing.goTo(rowFieldOf(reply), now, reply);
  };
  return (
    <section className="sheet">
      <Form
        onKeyDown={({ key }) => key === 'Escape' && question && typing.takeBack()}
        aria-label={`Change lot ${lot.lotNo}`}
        onEntered={() => save(typing.present.current)}
        busy={busy}
      >
        <h2>Change what was said of it</h2>
        {elsewhere && <Notice kind="stop" title={elsewhere} />}
        <RowFields {...typing} choices={choices} />
        {question && <Question message={question.message} />}
        <SubmitActs label="Save the change" main />
      </Form>
    </section>
  );
}

function rowOfLot({ typed, goodsName, tags }: IntakeLot): IntakeRow {
  return {
    ...toRow(typed, goodsName),
    tags: tags.map(({ tag }) => tag).join(', '),
    broken: tags.filter(({ condition }) => condition === 'broken').map(({ tag }) => tag),
  };
}
