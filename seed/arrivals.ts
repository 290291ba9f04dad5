/** Who comes to a sale, in the order of arrival, and with what. */

import type { PlannedSale } from './calendar.ts';
import { chanceFor } from './chance.ts';
import type { Bringing } from './lots.ts';
import { catchOf } from './season-catch.ts';
import { PARTIES, type Party, partyOf } from './sellers.ts';
import { type Special, specialsOf } from './specials.ts';
import { tagRoll } from './tag-roll.ts';

/** From which thousandth of the morning to which a party arrives. */
const MORNING = { early: [0, 300], late: [700, 999], any: [0, 999] } as const;
/** How many of a thousand come without a special reason; this season many have one. */
const COMES = [830, 830, 830, 600] as const;

export function arrivals(sale: PlannedSale): Bringing[] {
  const chance = chanceFor(`${sale.name}, who comes`);
  const roll = tagRoll(sale.tagYear, chanceFor(`${sale.name}, tags`));
  const specials = new Map(specialsOf(sale.season, roll).map((special) => [partyOf(special.who), special]));
  const coming = PARTIES.flatMap((party) => {
    const special = specials.get(party);
    const when = special?.when ?? (chance.permille(COMES[sale.season]) ? 'any' : 'absent');
    if (when === 'absent') return [];
    const [from, to] = MORNING[when];
    return [{ at: chance.between(from, to), party, special }];
  });
  coming.sort((a, b) => a.at - b.at);
  return coming.map(({ party, special }) => bringing(sale, party, { special, roll }));
}

interface With {
  readonly special: Special | undefined;
  readonly roll: ReturnType<typeof tagRoll>;
}

function bringing(sale: PlannedSale, party: Party, { special, roll }: With): Bringing {
  const chance = chanceFor(`${sale.name}, ${party.trappers[0]?.name}`);
  const told = special?.lots ?? [];
  const drawn = catchOf({ party, told: told.length }, roll, chance);
  if (special === undefined) return drawn;
  const { duesDeducted = drawn.duesDeducted, advance, adjustment } = special;
  return {
    party,
    lots: special.only ? told : [...told, ...withoutTwins(drawn, told)],
    ...(duesDeducted === undefined ? {} : { duesDeducted }),
    ...(advance === undefined ? {} : { advance }),
    ...(adjustment === undefined ? {} : { adjustment }),
  };
}

/** Drawn lots of tagged goods give way to told ones, so that a licence's season limit is never passed. */
function withoutTwins({ lots }: Bringing, told: Bringing['lots']): Bringing['lots'] {
  const tagged = new Set(told.filter(({ tags }) => tags.length > 0).map(({ goods }) => goods));
  return lots.filter(({ goods }) => !tagged.has(goods));
}
