import { useState } from 'react';
import { CheckField } from '#app/ui/field.tsx';
import type { GoodsAsTyped } from '#lib/goods/fields.ts';
import { GoodsFields } from './goods-fields.tsx';
import { NO_GOODS } from './goods-typed.ts';

interface Change {
  readonly goods?: readonly GoodsAsTyped[];
  readonly left?: readonly string[];
}

interface TickGoodsProps {
  readonly goods: readonly GoodsAsTyped[];
  /** The short names of those that are not taken. */
  readonly left: readonly string[];
  readonly change: (change: Change) => void;
  readonly errorOf: (field: string) => string | undefined;
}

/** A list to tick, of which each can be opened and put into the association's own words. */
export function TickGoods({ goods, left, change, errorOf }: TickGoodsProps) {
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
