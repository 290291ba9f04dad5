/** The parts of the demo that are told, not drawn: who brings something unusual, and when they come to the table. */
import { type PlannedBringing, type PlannedLot, plannedLot, type TagRoll } from './lots.ts';
import type { Season } from './market.ts';

export interface Special extends Omit<PlannedBringing, 'party' | 'lots'> {
  /** One of the party's people. */
  readonly who: string;
  /** Whether they come early or late in the morning, whenever they like, or not at all this time. */
  readonly when: 'early' | 'late' | 'any' | 'absent';
  readonly lots?: readonly PlannedLot[];
  /** True where they bring nothing else. */
  readonly only?: boolean;
}

/** Two bobcats that found no price in February and come back in November with the same tags on them. */
const CAME_BACK = ['US-CITES MT BOB 2025 004811', 'US-CITES MT BOB 2025 004812'];
const cameBackTags = CAME_BACK.map((tag) => ({ tag, condition: 'intact' as const }));
const bigCats = { goods: 'bobcat', section: 'Mountain', size: 'L', grade: 'I', count: 2, tags: cameBackTags } as const;

export function specialsOf(season: Season, roll: TagRoll): readonly Special[] {
  return [firstWinter, secondWinter, thirdWinter, thisSeason][season]?.(roll) ?? [];
}

function firstWinter(): Special[] {
  const skulls = { goods: 'skull', section: 'Foothills', by: 'lot', count: 4, donated: true } as const;
  return [
    {
      who: 'Cora Pettibright',
      when: 'any',
      lots: [plannedLot({ ...skulls, note: 'Given for the roof of the hall.' })],
    },
    { who: 'Jiří Havlůvka', when: 'any', advance: '40.00' },
  ];
}

function secondWinter(): Special[] {
  const beaver = {
    goods: 'beaver',
    section: 'Foothills',
    size: '65 and up',
    grade: 'I',
    count: 1,
    donated: true,
  } as const;
  const opossum = { goods: 'opossum', section: 'Prairie', grade: 'III', count: 3, fate: 'passed' } as const;
  return [
    {
      who: 'Hester Longacre-Pike',
      when: 'any',
      lots: [plannedLot({ ...beaver, note: 'Given for the roof of the hall.' })],
    },
    { who: 'Rosalind Quaverley', when: 'any', lots: [plannedLot(opossum)], only: true },
    {
      who: 'Amadou N’Dour-Belle',
      when: 'any',
      adjustment: { amount: '-5.00', note: 'A seller number was charged twice last winter.' },
    },
  ];
}

function thirdWinter(): Special[] {
  const coyote = { goods: 'coyote', section: 'Foothills', size: 'XL', grade: 'I', count: 1, donated: true } as const;
  const cats = plannedLot({ ...bigCats, minimum: 1500, fate: 'passed' });
  return [
    { who: 'Tāne Whakarewa', when: 'any', lots: [plannedLot({ ...coyote, note: 'Given for the youth course.' })] },
    { who: 'Maren Ødegårdsli', when: 'any', lots: [cats] },
    { who: 'Eli Brambletonne', when: 'absent' },
  ];
}

function thisSeason(roll: TagRoll): Special[] {
  return [...calledThisSeason(roll), ...toComeThisSeason(roll)];
}

/** Those who come early, so that their lots are called before the demo stops. */
function calledThisSeason(roll: TagRoll): Special[] {
  const fox = { goods: 'fox-red', section: 'Mountain', size: 'M', grade: 'I', count: 4, fate: 'misheard' } as const;
  const gift = {
    goods: 'beaver',
    section: 'Mountain',
    size: '65 and up',
    grade: 'I',
    count: 1,
    donated: true,
  } as const;
  const castor = { goods: 'castor', section: 'Foothills', by: 'oz', weight: '16.5' } as const;
  const skulls = { goods: 'skull', section: 'Foothills', by: 'lot', count: 5, note: 'Five in a box.' } as const;
  const dear = {
    goods: 'coyote',
    section: 'Mountain',
    size: 'XL',
    grade: 'I',
    count: 4,
    minimum: 1300,
    fate: 'passed',
  } as const;
  const below = {
    goods: 'coyote',
    section: 'Mountain',
    size: 'M',
    grade: 'II',
    count: 3,
    minimum: 1250,
    fate: 'accepted',
  } as const;
  const badger = { goods: 'badger', section: 'Foothills', size: 'L', grade: 'I', count: 1, fate: 'withdrawn' } as const;
  const hides = { goods: 'deer-hide', section: 'Mountain', by: 'lb', count: 6, weight: '44.5' } as const;
  const cats = {
    goods: 'bobcat',
    section: 'Mountain',
    size: 'M',
    grade: 'I',
    count: 2,
    tags: roll.next('bobcat', 2),
  } as const;
  const mink = {
    goods: 'mink',
    section: 'Foothills',
    size: 'L',
    grade: 'I',
    count: 6,
    leftBids: [{ buyerNo: 4, share: 1150 }],
  } as const;
  const otters = {
    goods: 'otter',
    section: 'Foothills',
    size: 'L',
    grade: 'I',
    count: 2,
    tags: roll.next('otter', 2),
  } as const;
  return [
    { who: 'Abel Threadwick', when: 'early', lots: [plannedLot(fox)] },
    { who: 'Zsófia Kertvölgyi', when: 'early', lots: [plannedLot({ ...gift, note: 'Given for the youth course.' })] },
    { who: 'Łucja Brzozowiecka', when: 'early', lots: [plannedLot(castor)] },
    { who: 'Cyrus Vandermolder', when: 'early', lots: [plannedLot(skulls)] },
    { who: 'Ewan MacQuillish', when: 'early', lots: [plannedLot(dear), plannedLot(below)] },
    { who: 'Goran Šimunčićek', when: 'early', lots: [plannedLot(badger)] },
    { who: 'Ansel Thorvaldsen-Ruiz', when: 'early', lots: [plannedLot(hides)] },
    { who: 'Dagný Hrafnkelsdóttir', when: 'early', lots: [plannedLot(cats)] },
    { who: 'Ngọc Trần Vân Hòa', when: 'early', lots: [plannedLot(mink)] },
    { who: 'Marek Suchodolakowski', when: 'early', lots: [plannedLot(otters)] },
    { who: 'Eli Brambletonne', when: 'early', duesDeducted: true },
  ];
}

/** Those who come late, so that their lots are still to be called where the demo stops. */
function toComeThisSeason(roll: TagRoll): Special[] {
  const short = {
    goods: 'bobcat',
    section: 'Mountain',
    size: 'M',
    grade: 'II',
    count: 3,
    tags: roll.next('bobcat', 2),
  } as const;
  const back = plannedLot({ ...bigCats, minimum: 900, note: 'Passed in February and back with the same tags.' });
  const broken = roll.next('otter', 1).map(({ tag }) => ({ tag, condition: 'broken' as const }));
  const otter = { goods: 'otter', section: 'Mountain', size: 'M', grade: 'I', count: 1, tags: broken } as const;
  const fromOutside = { takenIn: 'US-WY', tags: roll.next('bobcat', 2, 'WY') };
  const cats = { goods: 'bobcat', section: 'Prairie', size: 'M', grade: 'I', count: 2, ...fromOutside } as const;
  const beaver = {
    goods: 'beaver',
    section: 'Foothills',
    size: '60 to 64',
    grade: 'I',
    count: 5,
    form: 'green',
  } as const;
  const carcass = { goods: 'coyote', section: 'Prairie', size: 'L', grade: 'I', count: 2, form: 'carcass' } as const;
  const marten = { goods: 'marten', section: 'Mountain', size: 'L', grade: 'I', count: 5 } as const;
  return [
    { who: 'Maren Ødegårdsli', when: 'late', lots: [plannedLot(short), back] },
    { who: 'Inês Carvalhinho', when: 'late', lots: [plannedLot(otter)] },
    { who: 'Wade Hollenquist', when: 'late', lots: [plannedLot(cats)] },
    {
      who: 'Hester Longacre-Pike',
      when: 'late',
      lots: [
        plannedLot({
          ...beaver,
          leftBids: [
            { buyerNo: 2, share: 940 },
            { buyerNo: 8, share: 1020 },
          ],
        }),
      ],
    },
    { who: 'Nora Fitzhallam', when: 'late', lots: [plannedLot(carcass)] },
    {
      who: 'Yūki Morinaga-Stead',
      when: 'late',
      lots: [plannedLot({ ...marten, leftBids: [{ buyerNo: 4, share: 1080 }] })],
    },
    { who: 'Björn Åkervikström', when: 'late' },
    { who: LAPSED, when: 'any' },
    { who: 'Ελένη Δροσοπηγή', when: 'any' },
    { who: 'Олена Житнюк', when: 'any' },
  ];
}

/** The seller whose licence has run out by this season's sale. */
export const LAPSED = 'Wendell Applegarth-Moon';
