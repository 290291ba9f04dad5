/** What the parties bring of themselves: goods by where and how they trap, in lots of one kind, size and grade. */
import { GOODS } from './association.ts';
import { type PlannedBringing, type PlannedLot, plannedLot, type TagRoll } from './lots.ts';
import { kindOf } from './market.ts';
import type { Prng } from './prng.ts';
import type { Line, Party } from './sellers.ts';

const CATCH: Readonly<Record<Line, readonly string[]>> = {
  water: ['muskrat', 'beaver', 'mink', 'raccoon', 'otter', 'castor', 'muskrat', 'beaver'],
  upland: ['coyote', 'fox-red', 'bobcat', 'badger', 'coyote', 'skunk', 'fox-gray'],
  woods: ['marten', 'bobcat', 'beaver', 'marten', 'weasel', 'castor', 'fox-red', 'marten'],
  mixed: ['raccoon', 'muskrat', 'coyote', 'fox-red', 'skunk', 'mink', 'deer-hide', 'raccoon', 'skull'],
  prairie: ['coyote', 'raccoon', 'badger', 'opossum', 'muskrat', 'fox-red', 'skunk', 'raccoon'],
};

const GRADES = [
  ['I', 50],
  ['II', 30],
  ['III', 14],
  ['damaged', 6],
] as const;

/** At most one lot of tagged goods a season, so that no licence comes near its season limit. */
const ONE_LOT = new Set(['bobcat', 'otter', 'castor', 'deer-hide', 'skull']);

/** So many lots that with those told of the party it comes to about five. */
export function catchOf(party: Party, told: number, roll: TagRoll, prng: Prng): PlannedBringing {
  const kinds = CATCH[party.line];
  const lots: PlannedLot[] = [];
  const most = prng.between(4, 6) + (prng.permille(500) ? 1 : 0) - told;
  for (let place = prng.below(kinds.length), tries = 0; lots.length < most && tries < 12; place += 1, tries += 1) {
    const goods = kinds[place % kinds.length] ?? 'muskrat';
    if (ONE_LOT.has(goods) && lots.some((lot) => lot.goods === goods)) continue;
    lots.push(lotOf(goods, party, roll, prng));
  }
  return { party, lots, duesDeducted: prng.permille(400) };
}

function lotOf(goods: string, party: Party, roll: TagRoll, prng: Prng): PlannedLot {
  const listed = GOODS.find((one) => one.goods === goods);
  const [low, high] = kindOf(goods).pieces;
  const pieces = prng.between(low, high);
  const withoutReserve = prng.permille(40);
  const state = party.trappers[0]?.town === 'outside' ? 'WY' : 'MT';
  return plannedLot({
    goods,
    section: party.section,
    ...measureOf(goods, pieces, prng),
    size: listed?.sizes.length ? sizeOf(listed.sizes, prng) : '',
    grade: listed?.grades.length ? prng.weighted(GRADES) : '',
    form: prng.permille(25) && !ONE_LOT.has(goods) ? 'green' : 'put_up',
    withoutReserve,
    minimum: !withoutReserve && prng.permille(160) ? prng.between(780, 1120) : null,
    takenIn: state === 'MT' ? '' : 'US-WY',
    tags: roll.next(goods, pieces, state),
    fate: fateOf(prng),
  });
}

/** Of two sizes drawn, the one nearer to the large end: most of what is brought is full-grown. */
function sizeOf(sizes: readonly string[], prng: Prng): string {
  const [one, two] = [prng.below(sizes.length), prng.below(sizes.length)];
  return sizes[Math.max(one, two)] ?? '';
}

/** Castor goes by the ounce and hides by the pound, skulls by the lot, everything else by the piece. */
function measureOf(goods: string, pieces: number, prng: Prng): Partial<PlannedLot> {
  if (goods === 'castor') return { by: 'oz', weight: `${pieces}.${prng.pick([0, 25, 5, 75])}` };
  if (goods === 'deer-hide') return { by: 'lb', count: pieces, weight: `${pieces * 7}.${prng.below(10)}` };
  return goods === 'skull' ? { by: 'lot', count: pieces } : { count: pieces };
}

function fateOf(prng: Prng): PlannedLot['fate'] {
  return prng.weighted([
    ['market', 960],
    ['passed', 20],
    ['withdrawn', 12],
    ['misheard', 8],
  ]);
}
