import type { Findable } from '#lib/price-finding.ts';

interface FindProps {
  readonly goods: readonly Findable[];
  readonly text: string;
}

/** A name, typed or chosen, then one tap; works without a script. */
export function FindForm({ goods, text }: FindProps) {
  return (
    <form className="find no-print" method="get" action="/prices">
      <label htmlFor="find">Find a kind by any name</label>
      <input id="find" name="find" list="names" defaultValue={text} autoComplete="off" maxLength={80} />
      <datalist id="names">
        {goods.map(({ goods: code, name }) => (
          <option key={code} value={name} />
        ))}
      </datalist>
      <button type="submit" className="act">
        Find
      </button>
    </form>
  );
}

/** What a name may mean where it means several, or what there is where it means nothing. */
export function Found({ goods, text, all }: FindProps & { readonly all: readonly Findable[] }) {
  const shown = goods.length > 0 ? goods : all;
  return (
    <section className="sheet" aria-labelledby="found">
      <h2 id="found">{goods.length > 0 ? `“${text}” may be` : `Nothing here is called “${text}”`}</h2>
      {goods.length === 0 && <p>These kinds have been sold at our sales:</p>}
      <ul className="found">
        {shown.map(({ goods: code, name, scientificName }) => (
          <li key={code}>
            <a href={`/prices/${encodeURIComponent(code)}`}>{name}</a> {scientificName && <i>{scientificName}</i>}
          </li>
        ))}
      </ul>
    </section>
  );
}
