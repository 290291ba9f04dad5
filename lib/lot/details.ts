/** What a lot says of itself in one line: size, grade, section, and whatever else a place names. */
import { joined } from '#lib/settlement/spelling.ts';
import { type DetailPlace, LOT_FIELD_NAMES, LOT_FIELDS, type LotField, type LotSaid } from './fields.ts';

/** The fields that a place names: a screen or paper whose lots lack one of them does not compile. */
type Named<P extends DetailPlace> = {
  [N in LotField]: P extends (typeof LOT_FIELDS)[N]['details'][number] ? N : never;
}[LotField];
type DetailsAt<P extends DetailPlace> = Pick<LotSaid, Named<P> & keyof LotSaid>;

/** Goods that are put up are what is usual, and need no word. */
const WITHOUT_WORD = 'put_up';

/** `L · I · Foothills`, or whatever stands between. */
export function lotDetails<P extends DetailPlace>(place: P, lot: DetailsAt<P>, between = ' · '): string {
  const said: Partial<Readonly<Record<string, unknown>>> = lot;
  const named = LOT_FIELD_NAMES.filter((name) => LOT_FIELDS[name].details.some((one) => one === place));
  const words = named.map((name) => (said[name] === WITHOUT_WORD ? '' : String(said[name] ?? '')));
  return joined(words, between);
}
