import type { Findable } from '#lib/price-finding.ts';
import { addressOf } from './address.ts';

interface HeadingProps {
  readonly goods: Findable;
  readonly called: readonly string[];
  /** The part that is looked at, in words; empty where it is the whole. */
  readonly part: string;
}

/** Which goods these are, by all their names. */
export function GoodsHeading({ goods: { goods, name, scientificName }, called, part }: HeadingProps) {
  return (
    <>
      <h1>{part === '' ? name : `${name}: ${part}`}</h1>
      <p className="soft">
        {scientificName && <i>{scientificName}</i>} {called.length > 0 && `(also called ${called.join(', ')})`}
      </p>
      {part !== '' && (
        <p className="no-print">
          <a href={addressOf(goods)}>All {name}, and its other parts</a>
        </p>
      )}
    </>
  );
}
