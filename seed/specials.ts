/** The parts of the demo that are told, not drawn: who brings something unusual, and when they come to the table. */
import type { PlannedBringing, TagRoll, Told } from './lots.ts';
import type { Season } from './market.ts';

export interface Special extends Omit<PlannedBringing, 'party' | 'lots'> {
  /** One of the party's people. */
  readonly who: string;
  /** Whether they come early or late in the morning, whenever they like, or not at all this time. */
  readonly when: 'early' | 'late' | 'any' | 'absent';
  readonly lots?: readonly Told[];
  /** True where they bring nothing else. */
  readonly only?: boolean;
}

/** Two bobcats that found no price in February and come back in November with the same tags on them. */
const CAME_BACK = ['US-CITES MT BOB 2025 004811', 'US-CITES MT BOB 2025 004812'];
const cameBackTags = CAME_BACK.map((tag) => ({ tag, condition: 'intact' as const }));
const bigCats = { goods: 'bobcat', section: 'Mountain', size: 'L', grade: 'I', count: 2, tags: cameBackTags } as const;
const LARGE_BEAVER = { goods: 'beaver', size: '65 and up', grade: 'I', count: 1, donated: true } as const;

export function specialsOf(season: Season, roll: TagRoll): readonly Special[] {
  return [firstWinter, secondWinter, thirdWinter, thisSeason][season]?.(roll) ?? [];
}

// biome-ignore format: one line a seller reads as the table it is.
function firstWinter(): Special[] {
  return [
    { who: 'Cora Pettibright', when: 'any', lots: [{ goods: 'skull', section: 'Foothills', by: 'lot', count: 4, donated: true, note: 'Given for the roof of the hall.' }] },
    { who: 'Jiří Havlůvka', when: 'any', advance: '40.00' },
  ];
}

// biome-ignore format: one line a seller reads as the table it is.
function secondWinter(): Special[] {
  return [
    { who: 'Hester Longacre-Pike', when: 'any', lots: [{ ...LARGE_BEAVER, section: 'Foothills', note: 'Given for the roof of the hall.' }] },
    { who: 'Rosalind Quaverley', when: 'any', lots: [{ goods: 'opossum', section: 'Prairie', grade: 'III', count: 3, fate: 'passed' }], only: true },
    { who: 'Amadou N’Dour-Belle', when: 'any', adjustment: { amount: '-5.00', note: 'A seller number was charged twice last winter.' } },
  ];
}

// biome-ignore format: one line a seller reads as the table it is.
function thirdWinter(): Special[] {
  return [
    { who: 'Tāne Whakarewa', when: 'any', lots: [{ goods: 'coyote', section: 'Foothills', size: 'XL', grade: 'I', count: 1, donated: true, note: 'Given for the youth course.' }] },
    { who: 'Maren Ødegårdsli', when: 'any', lots: [{ ...bigCats, minimum: 1500, fate: 'passed' }] },
    { who: 'Eli Brambletonne', when: 'absent' },
  ];
}

function thisSeason(roll: TagRoll): Special[] {
  return [...calledThisSeason(roll), ...toComeThisSeason(roll)];
}

/** Those who come early, so that their lots are called before the demo stops. */
// biome-ignore format: one line a lot reads as the table it is.
function calledThisSeason(roll: TagRoll): Special[] {
  return [
    { who: 'Abel Threadwick', when: 'early', lots: [{ goods: 'fox-red', section: 'Mountain', size: 'M', grade: 'I', count: 4, fate: 'misheard' }] },
    { who: 'Zsófia Kertvölgyi', when: 'early', lots: [{ ...LARGE_BEAVER, section: 'Mountain', note: 'Given for the youth course.' }] },
    { who: 'Łucja Brzozowiecka', when: 'early', lots: [{ goods: 'castor', section: 'Foothills', by: 'oz', weight: '16.5' }] },
    { who: 'Cyrus Vandermolder', when: 'early', lots: [{ goods: 'skull', section: 'Foothills', by: 'lot', count: 5, note: 'Five in a box.' }] },
    { who: 'Ewan MacQuillish', when: 'early', lots: [
      { goods: 'coyote', section: 'Mountain', size: 'XL', grade: 'I', count: 4, minimum: 1300, fate: 'passed' },
      { goods: 'coyote', section: 'Mountain', size: 'M', grade: 'II', count: 3, minimum: 1250, fate: 'accepted' },
    ] },
    { who: 'Goran Šimunčićek', when: 'early', lots: [{ goods: 'badger', section: 'Foothills', size: 'L', grade: 'I', count: 1, fate: 'withdrawn' }] },
    { who: 'Ansel Thorvaldsen-Ruiz', when: 'early', lots: [{ goods: 'deer-hide', section: 'Mountain', by: 'lb', count: 6, weight: '44.5' }] },
    { who: 'Dagný Hrafnkelsdóttir', when: 'early', lots: [{ goods: 'bobcat', section: 'Mountain', size: 'M', grade: 'I', count: 2, tags: roll.next('bobcat', 2) }] },
    { who: 'Ngọc Trần Vân Hòa', when: 'early', lots: [{ goods: 'mink', section: 'Foothills', size: 'L', grade: 'I', count: 6, leftBids: [{ buyerNo: 4, share: 1150 }] }] },
    { who: 'Marek Suchodolakowski', when: 'early', lots: [{ goods: 'otter', section: 'Foothills', size: 'L', grade: 'I', count: 2, tags: roll.next('otter', 2) }] },
    { who: 'Eli Brambletonne', when: 'early', duesDeducted: true },
  ];
}

/** Those who come late, so that their lots are still to be called where the demo stops. */
// biome-ignore format: one line a lot reads as the table it is.
function toComeThisSeason(roll: TagRoll): Special[] {
  const short = { goods: 'bobcat', section: 'Mountain', size: 'M', grade: 'II', count: 3, tags: roll.next('bobcat', 2) } as const;
  const broken = roll.next('otter', 1).map(({ tag }) => ({ tag, condition: 'broken' as const }));
  const fromOutside = { takenIn: 'US-WY', tags: roll.next('bobcat', 2, 'WY') };
  return [
    { who: 'Maren Ødegårdsli', when: 'late', lots: [
      short,
      { ...bigCats, minimum: 900, note: 'Passed in February and back with the same tags.' },
    ] },
    { who: 'Inês Carvalhinho', when: 'late', lots: [{ goods: 'otter', section: 'Mountain', size: 'M', grade: 'I', count: 1, tags: broken }] },
    { who: 'Wade Hollenquist', when: 'late', lots: [{ goods: 'bobcat', section: 'Prairie', size: 'M', grade: 'I', count: 2, ...fromOutside }] },
    { who: 'Hester Longacre-Pike', when: 'late', lots: [
      { goods: 'beaver', section: 'Foothills', size: '60 to 64', grade: 'I', count: 5, form: 'green', leftBids: [{ buyerNo: 2, share: 940 }, { buyerNo: 8, share: 1020 }] },
    ] },
    { who: 'Nora Fitzhallam', when: 'late', lots: [{ goods: 'coyote', section: 'Prairie', size: 'L', grade: 'I', count: 2, form: 'carcass' }] },
    { who: 'Yūki Morinaga-Stead', when: 'late', lots: [{ goods: 'marten', section: 'Mountain', size: 'L', grade: 'I', count: 5, leftBids: [{ buyerNo: 4, share: 1080 }] }] },
    { who: 'Björn Åkervikström', when: 'late' },
    { who: LAPSED, when: 'any' },
    { who: 'Ελένη Δροσοπηγή', when: 'any' },
    { who: 'Олена Житнюк', when: 'any' },
  ];
}

/** The seller whose licence has run out by this season's sale. */
export const LAPSED = 'Wendell Applegarth-Moon';
