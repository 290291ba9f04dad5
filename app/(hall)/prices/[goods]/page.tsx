import { shortDate } from '#lib/date/date.ts';
import '#app/(hall)/prices/prices.css';
import type { Metadata } from 'next';
import { HallFrame } from '#app/(hall)/hall-frame.tsx';
import { pricesAddress, pricesContext } from '#app/(hall)/prices/prices-context.ts';
import { PlotScale, type RangeLine, RangePlot, RangeTable } from '#app/(hall)/prices/range-table.tsx';
import { Caution, SeasonChoice, SeasonWords } from '#app/(hall)/prices/season-parts.tsx';
import type { SearchParams } from '#app/request/page-context.ts';
import { Unbroken } from '#app/ui/text.tsx';
import { pricedGoods } from '#db/price/lists.ts';
import type { RangePart } from '#lib/price/parts.ts';
import { evenScale } from '#lib/price/plot.ts';
import { FOR_ONE, fewInWords, type PartPath, partInWords, rangeInWords } from '#lib/price/words.ts';
import { type GoodsContext, type GoodsHistory, type GoodsYear, goodsContext } from './goods-context.ts';

interface PageProps {
  readonly params: Promise<{ readonly goods: string }>;
  readonly searchParams: SearchParams;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const { book } = await pricesContext();
  const code = decodeURIComponent((await params).goods);
  const goods = pricedGoods(book).find((one) => one.goods === code);
  return { title: goods ? `Prices of ${goods.name}` : 'Prices' };
}

/** What one kind of goods brought, season by season, then its parts in one season; or one part of it over the seasons. */
export default async function Page({ params, searchParams }: PageProps) {
  const code = decodeURIComponent((await params).goods);
  const { association, goods, called, histories, part, season } = await goodsContext(code, await searchParams);
  const named = season?.season ?? '';
  return (
    <HallFrame association={association}>
      <GoodsHeading goods={goods} called={called} part={part} />
      {season ? <SeasonWords season={season} /> : <p>None of it has been sold at our sales yet.</p>}
      {histories.map((history) => (
        <section key={history.measure} className="sheet" aria-labelledby={`seasons-${history.measure}`}>
          <Strip history={history} part={part} season={named} />
          {part === '' && (
            <SeasonChoice path={pricesAddress(code)} seasons={history.years.map((year) => year.season)} shown={named} />
          )}
          {part === '' && <Parts code={code} history={history} season={named} />}
        </section>
      ))}
      {season && <Caution fewest={season.fewest} />}
    </HallFrame>
  );
}

/** Which goods these are, by all their names. */
function GoodsHeading({
  goods: { goods, name, scientificName },
  called,
  part,
}: Pick<GoodsContext, 'goods' | 'called' | 'part'>) {
  return (
    <>
      <h1>{part === '' ? name : `${name}: ${part}`}</h1>
      <p className="soft">
        {scientificName && <i>{scientificName}</i>} {called.length > 0 && `(also called ${called.join(', ')})`}
      </p>
      {part !== '' && (
        <p className="no-print">
          <a href={pricesAddress(goods)}>All {name}, and its other parts</a>
        </p>
      )}
    </>
  );
}

interface PartsProps {
  readonly code: string;
  readonly history: GoodsHistory;
  readonly season: string;
}

/** A season by section, size, grade and form, as far as each is broad enough; each leads to itself over the seasons. */
function Parts({ code, history: { name, measure, years }, season: shown }: PartsProps) {
  const year = years.find(({ season }) => season.season === shown);
  const lines = linesOf(year?.prices.parts ?? [], code);
  if (lines.length === 0) return null;
  const source = year?.season.sales.length === 0 ? ' (from a price list)' : '';
  const caption = `${name} in season ${shown}${source} by section, size, grade and form, for ${FOR_ONE[measure]}`;
  return <RangeTable caption={caption} head="Part" lines={lines} />;
}

/** A part that is all there is above it adds nothing and gives its place to its own parts. `path` is what is above. */
function linesOf(parts: readonly RangePart[], code: string, path: PartPath = {}): RangeLine[] {
  const [only, ...others] = parts;
  if (only && others.length === 0) return linesOf(only.parts, code, path);
  const depth = Object.keys(path).length;
  return parts.flatMap((part) => {
    const named = { name: partInWords(part), depth, range: part.range };
    if (part.value === null) return [{ key: `${pricesAddress(code, path)} ${part.level}`, ...named }];
    const own = { ...path, [part.level]: part.value };
    const href = pricesAddress(code, own);
    return [{ key: href, href, ...named }, ...linesOf(part.parts, code, own)];
  });
}

const NOT_APART = 'Not sold, or shown only together with others.';

interface StripProps extends Pick<GoodsContext, 'part'> {
  readonly history: GoodsHistory;
  /** The season that is put into words; the newest where it is none of them. */
  readonly season: string;
}

/** The seasons under one another on one scale, with the table of the same figures. */
function Strip({ history: { measure, years, ...history }, part, season: named }: StripProps) {
  const name = part === '' ? history.name : `${history.name} (${part})`;
  const shown = years.flatMap(({ season, range }) => (range ? [{ season, range }] : []));
  const scale = evenScale(shown.map(({ range }) => range.highCents));
  const spoken = shown.find(({ season }) => season.season === named) ?? shown[0];
  const lines = years.map((year) => ({ key: year.season.season, name: seasonLine(year), range: year.range }));
  return (
    <>
      <h2 id={`seasons-${measure}`}>For {FOR_ONE[measure]}, season by season</h2>
      {spoken && (
        <>
          <p>
            <strong>
              <Unbroken>{rangeInWords({ name, season: spoken.season.season }, spoken.range)}</Unbroken>
            </strong>{' '}
            {fewInWords(spoken.range)}
          </p>
          <PlotScale scale={scale} />
          <ul className="strip">
            {shown.map(({ season, range }) => (
              <li key={season.season}>
                <span>{season.season}</span>
                <RangePlot range={range} scale={scale} />
              </li>
            ))}
          </ul>
        </>
      )}
      <RangeTable
        caption={`${name} by season, for ${FOR_ONE[measure]}`}
        head="Season and sales"
        lines={lines}
        empty={part === '' ? undefined : NOT_APART}
      />
    </>
  );
}

function seasonLine({ season: { season, sales } }: GoodsYear): string {
  if (sales.length === 0) return `${season} (from a price list)`;
  const held = sales.map(
    ({ name, heldOn, running }) => `${name}, ${shortDate(heldOn)}${running ? ', still going on' : ''}`,
  );
  return `${season} (${held.join('; ')})`;
}
