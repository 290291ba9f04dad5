/** Everything that a sale says of the goods it takes, once: commands, row, `goods.csv` and form follow from this list. */
import { type AnyField, type Facts, fieldNames, type InFolder, type Typed } from '#lib/field/fields.ts';
import { KIND } from '#lib/field/kinds.ts';
import { BYS } from '#lib/lot/fields.ts';

interface GoodsFieldRules extends AnyField {
  readonly asked: number;
}

const said = { kind: KIND.words, empty: '', column: KIND.words } as const;
const wordList = { kind: KIND.wordList, empty: [], column: null } as const;

export const GOODS_FIELDS = {
  goods: {
    ...{ kind: KIND.shortName, column: KIND.shortName, asked: 1 },
    label: 'Short name',
    hint: 'For lists and files, such as fox-red. It cannot be changed later.',
  },
  name: { kind: KIND.name, column: KIND.name, label: 'Name', hint: 'As it is called at the tables.', asked: 2 },
  scientificName: { ...said, label: 'Scientific name', hint: 'For the return to the agency.', asked: 5 },
  by: {
    ...{ kind: KIND.oneOf(...BYS), column: KIND.oneOf(...BYS), asked: 3 },
    label: 'Sold',
    hint: 'What a price stands for.',
  },
  exportTag: {
    ...{ kind: KIND.flag, empty: false, column: KIND.flag, asked: 10 },
    label: 'Needs an export tag a piece',
  },
  tagSpeciesCode: { ...said, label: 'Species code', hint: 'As it stands on the tags, such as BOB.', asked: 4 },
  seasonLimit: {
    ...{ kind: KIND.orNull(KIND.count), empty: null, column: KIND.orNull(KIND.count), asked: 6 },
    label: 'Season limit',
    hint: 'The most pieces a licence may bring. Empty for none.',
  },
  sizes: { ...wordList, label: 'Sizes', hint: 'Your own words, with commas: S, M, L.', asked: 7 },
  grades: { ...wordList, label: 'Grades', hint: 'Your own words, with commas: I, II, III.', asked: 8 },
  caution: {
    ...{ kind: KIND.words, empty: '', column: null, asked: 9 },
    label: 'Caution',
    hint: 'Said at the table for green goods and carcasses.',
  },
} as const satisfies Readonly<Record<string, GoodsFieldRules>>;

export type GoodsInFolder = Facts<InFolder<typeof GOODS_FIELDS>>;
export type GoodsAsTyped = Typed<typeof GOODS_FIELDS>;

export const GOODS_QUESTIONS = fieldNames(GOODS_FIELDS).sort((a, b) => GOODS_FIELDS[a].asked - GOODS_FIELDS[b].asked);
