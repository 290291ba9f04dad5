import { TextField } from '#app/ui/field.tsx';
import { mineKey } from '#lib/price-mine.ts';
import { fieldOf, type MineGround } from './ground.ts';

const UNITS = { piece: 'pieces', lb: 'pounds', oz: 'ounces' } as const;

/** One field a kind. What was typed stands in the address, so that it can be shared, and stays when something is amiss. */
export function MineForm({ ground: { asked, answer, membership, season } }: { readonly ground: MineGround }) {
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
            name={fieldOf(one)}
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
