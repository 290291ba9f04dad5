/** The invented market: what goods bring in a season, by size, grade, section and form, with some luck in it. */

import type { FurForm } from '#lib/lot/fields.ts';
import { Decimal, roundHalfUp } from '#lib/money/decimal.ts';
import { type Cents, cents } from '#lib/money/money.ts';
import type { Section } from './association.ts';
import type { Prng } from './prng.ts';

/** Everything but the cents and the pieces is in thousandths of the price of grade I from the Foothills in season 1. */
interface Kind {
  /** By size; the empty size is for goods that have none. For castor and hides it stands for an ounce or a pound. */
  readonly cents: Readonly<Record<string, number>>;
  /** How many pieces a lot has, from and to. */
  readonly pieces: readonly [number, number];
  /** Mountain, Foothills, Prairie. */
  readonly sections: readonly [number, number, number];
  /** One for each of the demo's four sales. */
  readonly seasons: readonly [number, number, number, number];
}

const EVEN = [1000, 1000, 1000] as const;
const BEAVER = { 'under 50': 650, '50 to 54': 950, '55 to 59': 1350, '60 to 64': 1800, '65 and up': 2250 };

// biome-ignore format: one line a kind reads as the table it is.
export const KINDS: Readonly<Record<string, Kind>> = {
  muskrat:    { cents: { S: 190, M: 260, L: 330 }, pieces: [14, 44], sections: [940, 1000, 1060], seasons: [1000, 1160, 1050, 1120] },
  // Raccoon has its bad year in the second season.
  raccoon:    { cents: { S: 500, M: 750, L: 1050, XL: 1400 }, pieces: [4, 16], sections: [860, 1000, 1120], seasons: [1000, 420, 690, 880] },
  coyote:     { cents: { S: 1900, M: 2900, L: 3900, XL: 4800 }, pieces: [2, 7], sections: [1260, 1000, 760], seasons: [1000, 910, 820, 950] },
  'fox-red':  { cents: { S: 950, M: 1350, L: 1800 }, pieces: [2, 6], sections: [1150, 1000, 880], seasons: [1000, 940, 1040, 1120] },
  'fox-gray': { cents: { S: 900, M: 1250, L: 1600 }, pieces: [1, 4], sections: EVEN, seasons: [1000, 1050, 980, 1030] },
  beaver:     { cents: BEAVER, pieces: [3, 9], sections: [1120, 1000, 900], seasons: [1000, 1080, 1210, 1290] },
  bobcat:     { cents: { S: 9000, M: 13500, L: 18500 }, pieces: [2, 5], sections: [1240, 1000, 700], seasons: [1000, 1130, 1220, 1100] },
  otter:      { cents: { S: 2400, M: 3300, L: 4200 }, pieces: [1, 3], sections: EVEN, seasons: [1000, 900, 1060, 1140] },
  mink:       { cents: { S: 550, M: 800, L: 1100 }, pieces: [3, 9], sections: [1040, 1000, 960], seasons: [1000, 930, 860, 910] },
  marten:     { cents: { S: 2200, M: 3000, L: 3900 }, pieces: [2, 7], sections: [1180, 1000, 900], seasons: [1000, 1120, 1240, 1180] },
  weasel:     { cents: { '': 250 }, pieces: [2, 7], sections: EVEN, seasons: [1000, 1000, 1150, 1200] },
  badger:     { cents: { S: 1000, M: 1500, L: 2100 }, pieces: [1, 3], sections: [950, 1000, 1050], seasons: [1000, 1070, 1010, 1060] },
  skunk:      { cents: { '': 475 }, pieces: [2, 7], sections: EVEN, seasons: [1000, 900, 1000, 1050] },
  opossum:    { cents: { '': 175 }, pieces: [2, 8], sections: EVEN, seasons: [1000, 860, 900, 1000] },
  castor:     { cents: { '': 475 }, pieces: [10, 26], sections: EVEN, seasons: [1000, 1100, 1240, 1330] },
  'deer-hide': { cents: { '': 90 }, pieces: [3, 9], sections: EVEN, seasons: [1000, 1000, 1110, 1110] },
  skull:      { cents: { '': 900 }, pieces: [2, 6], sections: EVEN, seasons: [1000, 1060, 1120, 1180] },
};

const GRADE: Readonly<Record<string, number>> = { '': 1000, I: 1000, II: 740, III: 480, damaged: 240 };
const FORM = { put_up: 1000, green: 620, carcass: 520 } as const;
const SECTION: Readonly<Record<Section, 0 | 1 | 2>> = { Mountain: 0, Foothills: 1, Prairie: 2 };

export interface Wares {
  readonly goods: string;
  readonly size: string;
  readonly grade: string;
  readonly section: Section;
  readonly form: FurForm;
}

export type Season = 0 | 1 | 2 | 3;

export function kindOf(goods: string): Kind {
  const kind = KINDS[goods];
  if (kind === undefined) throw new RangeError(`The market knows no ${goods}.`);
  return kind;
}

/** What one piece, pound or ounce would bring on an ordinary day, in cents that are not rounded. */
export function worth({ goods, size, grade, section, form }: Wares, season: Season): Decimal {
  const kind = kindOf(goods);
  const base = kind.cents[size];
  const share = GRADE[grade];
  if (base === undefined || share === undefined) throw new RangeError(`The market knows no ${goods} ${size} ${grade}.`);
  const factors = [share, FORM[form], kind.sections[SECTION[section]], kind.seasons[season]];
  return factors.reduce((so, factor) => so.times(factor).dividedBy(1000), new Decimal(base));
}

/** What it does bring: the worth, up to an eighth more or less, on the auctioneer's step and never below one step. */
export function hammer(value: Decimal, prng: Prng): Cents {
  return onStep(value.times(875 + prng.between(0, 125) + prng.between(0, 125)).dividedBy(1000));
}

/** Bids go by quarters, by halves from 20.00 and by whole units from 50.00. */
export function onStep(value: Decimal): Cents {
  const step = value.lessThan(2000) ? 25 : value.lessThan(5000) ? 50 : 100;
  return cents(Math.max(roundHalfUp(value.dividedBy(step)) * step, step));
}
