'use client';

import { useRef, useState } from 'react';
import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { STARTING_GOODS } from '#lib/starting-goods.ts';
import { FIRST_FIELDS, FIRST_PARTS, type FirstField, plannedSale } from './first-sale.ts';

type Typed = Readonly<Record<FirstField, string>>;

const PARTS = Object.keys(FIRST_PARTS) as readonly (keyof typeof FIRST_PARTS)[];

const START = Object.fromEntries(FIRST_FIELDS.map(({ name, start }) => [name, start])) as Typed;

/** An empty book: whose it is, and its first sale. Everything but the goods' short names can be changed later. */
export function FirstUse() {
  const [typed, setTyped] = useState(START);
  const [bidding, setBidding] = useState<'floor' | 'sealed'>('floor');
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set(STARTING_GOODS.map(({ goods }) => goods)));
  const { give, busy, refusal, errorOf } = useGive('office');
  const named = useRef<string>(undefined);
  const tick = (goods: string) =>
    setTicked((before) => new Set(before.has(goods) ? [...before].filter((one) => one !== goods) : [...before, goods]));
  const plan = async () => {
    const goods = STARTING_GOODS.filter((one) => ticked.has(one.goods));
    // A second try after a refused sale does not name the association again.
    if (named.current !== typed.association) {
      const answer = await give({
        command: 'association.set',
        input: { name: typed.association },
        label: 'Association',
      });
      if (!answer.ok) return;
      named.current = typed.association;
    }
    await give({ command: 'sale.plan', input: plannedSale(typed, bidding, goods), label: 'First sale' });
  };
  return (
    <form
      className="sheet"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void plan();
      }}
    >
      <h1>This book is empty</h1>
      <p>Say whose it is and plan the first sale. The sums on every sheet come from these terms.</p>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      {PARTS.map((part) => (
        <fieldset key={part} className="first-part">
          <legend>{FIRST_PARTS[part]}</legend>
          <div className="fields">
            {FIRST_FIELDS.filter((field) => field.part === part).map(({ name, label, hint, error, keypad }) => (
              <TextField
                key={name}
                label={label}
                hint={hint}
                error={errorOf(error)}
                wide={part === 'whose'}
                inputMode={keypad ? 'decimal' : undefined}
                value={typed[name]}
                onChange={(event) => setTyped({ ...typed, [name]: event.target.value })}
              />
            ))}
            {part === 'sale' && (
              <ChoiceField
                label="How it is sold"
                value={bidding}
                onChange={(event) => setBidding(event.target.value === 'sealed' ? 'sealed' : 'floor')}
              >
                <option value="floor">called lots</option>
                <option value="sealed">written bids</option>
              </ChoiceField>
            )}
          </div>
        </fieldset>
      ))}
      <GoodsToTick ticked={ticked} tick={tick} />
      <div className="acts">
        <button type="submit" className="act" disabled={busy}>
          Plan the sale
        </button>
      </div>
    </form>
  );
}

interface GoodsToTickProps {
  readonly ticked: ReadonlySet<string>;
  readonly tick: (goods: string) => void;
}

function GoodsToTick({ ticked, tick }: GoodsToTickProps) {
  return (
    <fieldset className="first-part">
      <legend>Goods it takes</legend>
      <p className="field-hint">Ask your wildlife agency which kinds need a tag or a seal where you are.</p>
      <div className="fields">
        {STARTING_GOODS.map(({ goods, name, exportTag }) => (
          <CheckField
            key={goods}
            label={exportTag ? `${name} (export tag)` : name}
            checked={ticked.has(goods)}
            onChange={() => tick(goods)}
          />
        ))}
      </div>
    </fieldset>
  );
}
