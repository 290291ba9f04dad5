'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { CheckField } from '#app/ui/field.tsx';
import { Act, Form, SubmitActs } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { GoodsAsTyped } from '#lib/sale/goods-fields.ts';
import { SALE_QUESTIONS, type SalePart } from '#lib/sale/terms-fields.ts';
import { GoodsFields, goodsInputOf, NO_GOODS, START_GOODS } from './goods-fields.tsx';
import { mistakesIn, refusedAs, SalePartFields, START_TYPED, saleAsTyped } from './sale-fields.tsx';
import { useStored } from './use-stored.ts';

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
  const [draft, keep, forget] = useStored('peltry-first-sale', START);
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
          form={{ typed, errorOf: sentence, type: (next) => keep((now) => ({ ...now, typed: next })) }}
        />
      ))}
      {parts.length === 0 && (
        <TickGoods {...{ goods, left, errorOf }} change={(change) => keep((now) => ({ ...now, ...change }))} />
      )}
      <SubmitActs label={step < STEPS.length - 1 ? 'Go on' : 'Plan the sale'} main disabled={busy}>
        {step > 0 && <Act words="Back" act={() => turn(step - 1)} />}
      </SubmitActs>
    </Form>
  );
}

interface Ticked {
  readonly goods: readonly GoodsAsTyped[];
  /** The short names of those that are not taken. */
  readonly left: readonly string[];
}

interface TickGoodsProps extends Ticked {
  readonly change: (change: Partial<Ticked>) => void;
  readonly errorOf: (field: string) => string | undefined;
}

/** A list to tick, of which each can be opened and put into the association's own words. */
function TickGoods({ goods, left, change, errorOf }: TickGoodsProps) {
  const [fresh, setFresh] = useState(NO_GOODS);
  const taken = goods.filter((one) => !left.includes(one.goods));
  const errorFor = (code: string) => (field: string) =>
    errorOf(`goods.${taken.findIndex((one) => one.goods === code)}.${field}`);
  const tick = (code: string) =>
    change({ left: left.includes(code) ? left.filter((one) => one !== code) : [...left, code] });
  const isThere = goods.some((one) => one.goods === fresh.goods.trim());
  const add = () => {
    change({ goods: [...goods, { ...fresh, goods: fresh.goods.trim() }] });
    setFresh(NO_GOODS);
  };
  return (
    <fieldset className="sale-part">
      <legend>Tick and change</legend>
      <ul className="goods-ticks">
        {goods.map((one) => (
          <li key={one.goods}>
            <CheckField
              label={one.exportTag ? `${one.name} (export tag)` : one.name}
              checked={!left.includes(one.goods)}
              onChange={() => tick(one.goods)}
            />
            <details>
              <summary>
                Change<span className="visually-hidden"> {one.name}</span>
              </summary>
              <GoodsFields
                goods={one}
                change={(next) => change({ goods: goods.map((other) => (other.goods === one.goods ? next : other)) })}
                errorOf={errorFor(one.goods)}
              />
            </details>
          </li>
        ))}
      </ul>
      <details>
        <summary>Other goods</summary>
        <GoodsFields
          goods={fresh}
          change={setFresh}
          isNew
          errorOf={(field) =>
            field === 'goods' && isThere ? 'This short name is on the list: choose another.' : undefined
          }
        />
        <div className="acts">
          <button
            type="button"
            disabled={isThere || fresh.goods.trim() === '' || fresh.name.trim() === ''}
            onClick={add}
          >
            Add to the list
          </button>
        </div>
      </details>
    </fieldset>
  );
}

interface StepHeadProps {
  /** From 1. */
  readonly step: number;
  readonly title: string;
  readonly says: string;
}

/** How many acts lead from an empty book to an open intake. */
const STEP_NAMES = 5;

/** Where one is on the way from an empty book to the first lot. */
export function StepHead({ step, title, says }: StepHeadProps) {
  return (
    <>
      <p className="soft">
        Step {step} of {STEP_NAMES}
      </p>
      <h1>{title}</h1>
      <p>{says}</p>
    </>
  );
}
