'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { Form } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { useKept } from '#app/ui/use-kept.ts';
import { SALE_QUESTIONS, type SalePart } from '#lib/sale/terms-fields.ts';
import { goodsInputOf, START_GOODS } from './goods-typed.ts';
import { mistakesIn, refusedAs, START_TYPED, saleAsTyped } from './sale-fields.ts';
import { SalePartFields } from './sale-part.tsx';
import { StepHead } from './step-head.tsx';
import { TickGoods } from './tick-goods.tsx';

const STEPS: readonly { readonly title: string; readonly says: string; readonly parts: readonly SalePart[] }[] = [
  { title: 'The first sale', says: 'A book holds all your sales, year after year.', parts: ['sale'] },
  {
    title: 'Its terms',
    says: 'The sums on every sheet follow from these. They can be changed until the first sheet is out.',
    parts: ['commission', 'fees', 'buyers'],
  },
  {
    title: 'The goods it takes',
    says: 'Leave ticked what you take. Ask your wildlife agency which kinds need a tag or a seal where you are.',
    parts: [],
  },
];

const START = { step: 0, typed: START_TYPED, goods: START_GOODS, left: [] as readonly string[] };

/** Plans the first sale of a book in three steps; each is looked through before the next, and none is lost. */
export function FirstUse() {
  const router = useRouter();
  const [draft, keep, forget] = useKept('peltry-first-sale', START);
  const [wrong, setWrong] = useState<ReturnType<typeof mistakesIn>>({});
  const { give, busy, refusal, errorOf, clear } = useGive('office');
  const { step, typed, goods, left } = draft;
  const { title, says, parts } = STEPS[step] ?? { title: '', says: '', parts: [] };
  const sentence = (field: string) => {
    const name = SALE_QUESTIONS.find((one) => refusedAs(one) === field);
    return (name && wrong[name]) ?? errorOf(field);
  };
  const turn = (to: number) => {
    clear();
    setWrong({});
    keep((now) => ({ ...now, step: to }));
    window.scrollTo(0, 0);
  };
  const goOn = async () => {
    const found = mistakesIn(parts, typed);
    setWrong(found);
    if (Object.keys(found).length > 0) return;
    if (step < STEPS.length - 1) return turn(step + 1);
    const taken = goods.filter((one) => !left.includes(one.goods)).map(goodsInputOf);
    const input = { sale: saleAsTyped(typed, []), goods: taken };
    const answer = await give('sale.plan', input, 'First sale');
    if (answer.ok) forget();
    router.refresh();
  };
  return (
    <Form className="sheet sale-form" onEntered={goOn}>
      <StepHead step={step + 2} title={title} says={says} />
      {refusal && <Notice kind="stop" title={refusal.message} />}
      {Object.keys(wrong).length > 0 && <Notice kind="stop" title="Something here cannot be read: see below." />}
      {parts.map((part) => (
        <SalePartFields
          key={part}
          part={part}
          form={{
            ...{ typed, errorOf: sentence },
            type: (next) => keep((now) => ({ ...now, typed: next })),
          }}
        />
      ))}
      {parts.length === 0 && (
        <TickGoods
          goods={goods}
          left={left}
          change={(change) => keep((now) => ({ ...now, ...change }))}
          errorOf={errorOf}
        />
      )}
      <div className="acts">
        <button type="submit" className="act" disabled={busy}>
          {step < STEPS.length - 1 ? 'Go on' : 'Plan the sale'}
        </button>
        {step > 0 && (
          <button type="button" onClick={() => turn(step - 1)}>
            Back
          </button>
        )}
      </div>
    </Form>
  );
}
