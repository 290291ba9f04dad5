/** The invented people who sell: who stands behind which number, where they live and what they trap. */
import type { Section, Town } from './association.ts';

export type Line = 'water' | 'upland' | 'woods' | 'mixed' | 'prairie';

export interface Trapper {
  readonly name: string;
  readonly town: Town;
  readonly member: boolean;
}

/** One seller number: one trapper, or partners with their parts. */
export interface Party {
  readonly trappers: readonly (Trapper & { readonly parts: number })[];
  readonly line: Line;
  readonly section: Section;
}

type Row = readonly [name: string, town: Town, line: Line, section: Section];

// biome-ignore format: one line a person reads as the table it is.
const MEMBERS: readonly Row[] = [
  ['Dagný Hrafnkelsdóttir', 'ridge', 'woods', 'Mountain'],
  ['Łucja Brzozowiecka', 'ferry', 'water', 'Foothills'],
  ['Søren Kjærbakke', 'kettle', 'mixed', 'Prairie'],
  ['Maren Ødegårdsli', 'ridge', 'upland', 'Mountain'],
  ['Xóchitl Armendáriz Vela', 'wells', 'prairie', 'Prairie'],
  ['Tomás Echeverrí Luna', 'wells', 'mixed', 'Foothills'],
  ['Ngọc Trần Vân Hòa', 'ferry', 'water', 'Foothills'],
  ['Jiří Havlůvka', 'kettle', 'mixed', 'Prairie'],
  ['Zsófia Kertvölgyi', 'ridge', 'woods', 'Mountain'],
  ['Ailís Ní Dhroighneáin', 'ferry', 'water', 'Prairie'],
  ['Tāne Whakarewa', 'ridge', 'upland', 'Foothills'],
  ['Keoni Makalapuahou', 'wells', 'prairie', 'Prairie'],
  ['Amadou N’Dour-Belle', 'ferry', 'mixed', 'Foothills'],
  ['Олена Житнюк', 'kettle', 'water', 'Prairie'],
  ['Harjit Kaur Dhanoawal', 'wells', 'mixed', 'Prairie'],
  ['Yūki Morinaga-Stead', 'ridge', 'woods', 'Mountain'],
  ['Ewan MacQuillish', 'ridge', 'upland', 'Mountain'],
  ['Delphine Redwillow', 'ferry', 'water', 'Foothills'],
  ['Cora Pettibright', 'kettle', 'mixed', 'Foothills'],
  ['Wendell Applegarth-Moon', 'wells', 'upland', 'Prairie'],
  ['Ottilie Grünfelder', 'ridge', 'mixed', 'Mountain'],
  ['Goran Šimunčićek', 'kettle', 'upland', 'Foothills'],
  ['Rasa Žvirblytė-Cole', 'ferry', 'mixed', 'Foothills'],
  ['Ion Țărmureanu', 'wells', 'prairie', 'Prairie'],
  ['Inês Carvalhinho', 'ridge', 'woods', 'Mountain'],
  ['Hester Longacre-Pike', 'kettle', 'water', 'Foothills'],
  ['Abel Threadwick', 'ridge', 'upland', 'Mountain'],
  ['Josefa Peñarrubiano', 'wells', 'mixed', 'Prairie'],
  ['Cyrus Vandermolder', 'ferry', 'mixed', 'Foothills'],
  ['Nora Fitzhallam', 'kettle', 'prairie', 'Prairie'],
  ['Eli Brambletonne', 'ridge', 'mixed', 'Mountain'],
  ['Tolú Adéwọlé-Finch', 'ferry', 'mixed', 'Foothills'],
  ['Gülşen Çınardağlı', 'wells', 'upland', 'Prairie'],
  ['Theodora Wrenhollow', 'ridge', 'water', 'Mountain'],
];

// biome-ignore format: one line a person reads as the table it is.
const GUESTS: readonly Row[] = [
  ['Wade Hollenquist', 'outside', 'upland', 'Prairie'],
  ['Rosalind Quaverley', 'outside', 'prairie', 'Prairie'],
  ['Ελένη Δροσοπηγή', 'wells', 'mixed', 'Foothills'],
  ['Marek Suchodolakowski', 'kettle', 'water', 'Foothills'],
  ['June Tallowell', 'outside', 'mixed', 'Prairie'],
];

const person = (name: string, town: Town, parts = 1) => ({ name, town, parts, member: true });

/** Two who share alike, and three who share by the sets each of them ran. */
const PARTNERSHIPS: readonly Party[] = [
  {
    trappers: [person('Ansel Thorvaldsen-Ruiz', 'ridge'), person('Béatrice Lacombe-Ruel', 'ridge')],
    line: 'mixed',
    section: 'Mountain',
  },
  {
    trappers: [
      person('Björn Åkervikström', 'ferry', 2),
      person('Leif Stubberødmo', 'ferry'),
      person('Päivi Lehtorinne', 'kettle'),
    ],
    line: 'water',
    section: 'Foothills',
  },
];

function alone([name, town, line, section]: Row, member: boolean): Party {
  return { trappers: [{ name, town, member, parts: 1 }], line, section };
}

export const PARTIES: readonly Party[] = [
  ...MEMBERS.map((row) => alone(row, true)),
  ...GUESTS.map((row) => alone(row, false)),
  ...PARTNERSHIPS,
];

/** The party that the scripted parts of the demo mean by a person's name. Throws where the name is misspelt. */
export function partyOf(name: string): Party {
  const found = PARTIES.find(({ trappers }) => trappers.some((trapper) => trapper.name === name));
  if (found === undefined) throw new RangeError(`The demo has no seller ${name}.`);
  return found;
}
