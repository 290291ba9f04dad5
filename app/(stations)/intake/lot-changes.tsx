'use client';

import { useRouter } from 'next/navigation';
import { Question } from '#app/(stations)/block/question.tsx';
import { AskOne, type AskOneProps } from '#app/(stations)/give-forms.tsx';
import { Form, SubmitActs } from '#app/ui/form.tsx';
import { wholeNumber } from '#app/ui/text-field.tsx';
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
          asks={{
            label: byWeight ? `Weight of each part in ${lot.typed.by}` : 'Pieces of each part',
            hint: `With a plus between, such as 350+50; together they are ${byWeight ? lot.typed.weight : lot.typed.count}. Tags go along in their order.`,
          }}
          act="Divide the lot"
          inputOf={(text) => ({ lotId: lot.lotId, parts: partsOf(text, byWeight) })}
          onDone={() => toSeller(lot.sellerNo)}
        />
        <OneField
          title="Join another lot to it"
          command="lot.join"
          field="other"
          asks={{
            label: 'Number of the other lot',
            hint: `Its pieces and tags come to lot ${lot.lotNo}, and its number is no more: take its ticket off.`,
          }}
          act="Join the lots"
          inputOf={(text) => ({ lotId: lot.lotId, other: text.trim() })}
          onDone={() => toSeller(lot.sellerNo)}
        />
        <OneField
          title="Move it to another seller"
          command="lot.move"
          field="sellerNo"
          asks={{ label: 'Seller number' }}
          act="Move the lot"
          inputOf={(text) => ({ lotId: lot.lotId, sellerNo: wholeNumber(text) })}
          onDone={(text) => toSeller(Number.parseInt(text, 10))}
        />
        <OneField
          title="Withdraw it"
          command="lot.withdraw"
          asks={{ label: 'Why it is withdrawn', hint: 'The lot keeps its number and is not called.' }}
          act="Withdraw the lot"
          inputOf={(reason) => ({ lotId: lot.lotId, reason })}
          onDone={() => toSeller(lot.sellerNo)}
        />
      </div>
    </>
  );
}

/** A change that asks one thing. */
function OneField<N extends CommandName>({
  title,
  ...asked
}: Omit<AskOneProps<N>, 'station'> & { readonly title: string }) {
  return (
    <section className="sheet">
      <AskOne station="intake" aria-label={title} {...asked}>
        <h2>{title}</h2>
      </AskOne>
    </section>
  );
}

function partsOf(text: string, byWeight: boolean): InputOf<'lot.divide'>['parts'] {
  const figures = text.split(/[+,;\s]+/).filter(Boolean);
  return figures.map((figure) => ({ [byWeight ? 'weight' : 'count']: figure }));
}

interface AmendLotProps extends Omit<LotChangesProps, 'saleId'> {
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
    const reply = await give('lot.amend', { lotId: lot.lotId, ...said }, `Lot ${lot.lotNo}`);
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
        wrong={elsewhere}
      >
        <h2>Change what was said of it</h2>
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
