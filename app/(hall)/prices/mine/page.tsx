import '#app/(hall)/prices/prices.css';
import type { Metadata } from 'next';
import { HallFrame } from '#app/(hall)/hall-frame.tsx';
import { pricesContext } from '#app/(hall)/prices/prices-context.ts';
import type { SearchParams } from '#app/request/page-context.ts';
import { TextField } from '#app/ui/field.tsx';
import { mineKey } from '#lib/price/mine.ts';
import { MineAnswerView } from './mine-answer.tsx';
import { type MinePageContext, mineContext, mineFieldOf } from './mine-context.ts';

export const metadata: Metadata = { title: 'What would mine bring' };

/** A list of goods against last season's quarters, before and after commission and fees. */
export default async function Page({ searchParams }: { readonly searchParams: SearchParams }) {
  const { book, association, seasons } = await pricesContext();
  const context = mineContext(book, seasons, await searchParams);
  return (
    <HallFrame association={association} here="/prices/mine">
      <h1>What would mine bring?</h1>
      {context ? (
        <>
          <p>
            Nobody knows. But you can see what the same goods would have brought at the prices of season{' '}
            {context.season.season}: at what a quarter of the pieces brought or less, and at what three quarters did.
          </p>
          <MineAnswerView context={context} />
          <MineForm context={context} />
        </>
      ) : (
        <p>There is no season yet that is over, so there is nothing to reckon with. Come back after the first.</p>
      )}
    </HallFrame>
  );
}

const UNITS = { piece: 'pieces', lb: 'pounds', oz: 'ounces' } as const;

/** One field a kind. What was typed stands in the address, so that it can be shared, and stays when something is amiss. */
function MineForm({ context: { asked, answer, membership, season } }: { readonly context: MinePageContext }) {
  // A kind without an answer is asked for only where an address that somebody shared asks for it already.
  const offered = asked.filter(({ range, typed }) => range !== null || typed !== '');
  const withheld = asked.filter(({ range }) => range === null).map(({ name }) => name);
  return (
    <form method="get" action="/prices/mine" className="sheet mine no-print" aria-labelledby="list">
      <h2 id="list">Your goods</h2>
      <div className="fields">
        {offered.map((one) => (
          <TextField
            key={mineKey(one)}
            label={`${one.name}, ${UNITS[one.by]}`}
            error={answer.refused.get(mineKey(one))?.message}
            name={mineFieldOf(one)}
            defaultValue={one.typed}
            inputMode={one.by === 'piece' ? 'numeric' : 'decimal'}
            maxLength={12}
          />
        ))}
      </div>
      <fieldset className="as">
        <legend>You sell as</legend>
        <div className="ticks">
          {(['member', 'guest'] as const).map((one) => (
            <div key={one} className="check">
              <input id={`as-${one}`} type="radio" name="as" value={one} defaultChecked={one === membership} />
              <label htmlFor={`as-${one}`}>a {one}</label>
            </div>
          ))}
        </div>
      </fieldset>
      <p className="acts">
        <button type="submit" className="act">
          Work it out
        </button>
      </p>
      {withheld.length > 0 && (
        <p className="small soft">
          There is no answer for {withheld.join(', ')}: in season {season.season} too few people had a part in it.
        </p>
      )}
    </form>
  );
}
