/** Finding goods by a name, however people write it. */
import { foldName } from '#lib/result/search.ts';

/**
 * What people call goods besides the name on the list, by the code of the starting goods. Common names of the trade
 * and the countryside, from memory: common practice, no source.
 */
export const COMMON_NAMES: Readonly<Record<string, readonly string[]>> = {
  beaver: ['beavers'],
  bobcat: ['cat', 'wildcat', 'bay lynx'],
  castor: ['castors', 'castoreum', 'beaver castors'],
  coyote: ['prairie wolf', 'brush wolf'],
  'deer-hide': ['deerskin', 'buckskin', 'whitetail'],
  fisher: ['fisher cat', 'pekan'],
  'fox-gray': ['grey fox', 'gray'],
  'fox-red': ['red'],
  marten: ['pine marten', 'sable'],
  mink: [],
  muskrat: ['rat', 'musquash'],
  opossum: ['possum'],
  otter: ['otters'],
  raccoon: ['coon', 'racoon'],
  skunk: ['polecat'],
  weasel: ['ermine', 'stoat'],
};

export interface Findable {
  readonly goods: string;
  readonly name: string;
  readonly scientificName: string;
}

export function commonNames(goods: string): readonly string[] {
  return Object.hasOwn(COMMON_NAMES, goods) ? (COMMON_NAMES[goods] ?? []) : [];
}

/**
 * The goods that a text names, best first: a name as it stands; else names that begin with it; else those that hold
 * it; else those from which it is one slip of the pen away. Nothing of an empty text.
 */
export function findGoods<T extends Findable>(all: readonly T[], text: string): T[] {
  const wanted = foldName(text);
  if (wanted === '') return [];
  const named = all.map((one) => ({ one, names: namesOf(one) }));
  const tests = [
    (name: string) => name === wanted || name === singular(wanted),
    (name: string) => name.startsWith(wanted) || name.startsWith(singular(wanted)),
    (name: string) => name.includes(wanted),
    (name: string) => wanted.length > 3 && isOneSlipAway(name, wanted),
  ];
  for (const test of tests) {
    const found = named.filter(({ names }) => names.some(test));
    if (found.length > 0) return found.map(({ one }) => one);
  }
  return [];
}

function namesOf({ goods, name, scientificName }: Findable): string[] {
  return [goods.replaceAll('-', ' '), name, scientificName, ...commonNames(goods)].map(foldName);
}

/** `mink` of `minks`, `fox` of `foxes`: what people ask for is rarely one. */
function singular(text: string): string {
  if (/(x|ch|sh|ss)es$/.test(text)) return text.slice(0, -2);
  return text.replace(/s$/, '');
}

/** One letter too many, too few, another one, or two that have changed places. */
function isOneSlipAway(one: string, other: string): boolean {
  if (Math.abs(one.length - other.length) > 1) return false;
  let at = 0;
  while (at < one.length && one[at] === other[at]) at += 1;
  const [a, b] = [one.slice(at), other.slice(at)];
  const swapped = a.length > 1 && a[0] === b[1] && a[1] === b[0] && a.slice(2) === b.slice(2);
  return a.slice(1) === b.slice(1) || a.slice(1) === b || a === b.slice(1) || swapped;
}
