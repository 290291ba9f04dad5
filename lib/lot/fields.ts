/**
 * Everything that can be said of a lot, once. The input of the commands, the row, `lots.csv`, pasted lists, joining and
 * dividing, the forms of Intake and the details on screens and papers follow from this list.
 */
import { type AnyField, type Facts, fieldNames, type InFolder, pick, type Typed } from '#lib/field/fields.ts';
import { KIND } from '#lib/field/kinds.ts';

export const BYS = ['piece', 'lot', 'lb', 'oz'] as const;

const FORMS = ['put_up', 'green', 'carcass'] as const;
export type FurForm = (typeof FORMS)[number];

/** Where the details of a lot stand in one line. Those of Intake are the seller's list, those of lists hall papers. */
export type DetailPlace = 'intake' | 'block' | 'board' | 'ticket' | 'list' | 'officer' | 'sheet';
const EVERYWHERE = ['intake', 'block', 'board', 'ticket', 'list', 'officer', 'sheet'] as const;

interface LotFieldRules extends AnyField {
  /** Asked in the row of the form, or behind it in the part that is folded away. */
  readonly asked: 'row' | 'folded';
  /** At Intake, for the next row: carried over, emptied, or emptied with the goods it belongs to. */
  readonly nextRow: 'carried' | 'emptied' | 'with the goods';
  /** Two lots that are joined must say the same, in these words for what differs; or it is added up, or stays. */
  readonly join: { readonly alike: string } | 'added up' | 'stays';
  readonly divide: 'copied' | 'parted';
  /** The lines of details that name it, in the order of this list. */
  readonly details: readonly DetailPlace[];
}

const text = { kind: KIND.words, empty: '', column: KIND.words } as const;
const inRow = { asked: 'row', nextRow: 'emptied', details: [] } as const;
const folded = { asked: 'folded', nextRow: 'emptied', details: [] } as const;
const alike = (words: string) => ({ join: { alike: words }, divide: 'copied' }) as const;
const parted = { join: 'added up', divide: 'parted' } as const;
const by = KIND.oneOf(...BYS);
const pieces = KIND.orNull(KIND.count);
const weight = KIND.orNull(KIND.weight);
const minimum = KIND.orNull(KIND.amount({ allowZero: false }));
// A folder of an earlier program may say that a lot has no minimum as 0.00.
const minimumCell = KIND.orNull(KIND.money());

export const LOT_FIELDS = {
  goods: {
    ...{ kind: KIND.shortName, column: KIND.shortName, label: 'Goods' },
    ...{ ...inRow, nextRow: 'with the goods', ...alike('goods') },
  },
  /** Empty in the form: what is usual for the goods. */
  by: {
    ...{ kind: by, column: by, label: 'Price and minimum stand for' },
    ...{ ...folded, nextRow: 'with the goods', ...alike('what a price stands for') },
  },
  count: { kind: pieces, empty: null, column: pieces, label: 'Pieces', ...inRow, ...parted },
  /** In thousandths of the unit in `by`. */
  weight: { kind: weight, empty: null, column: weight, label: 'Weight', ...inRow, ...parted },
  size: { ...text, label: 'Size', ...inRow, ...alike('size'), details: EVERYWHERE },
  grade: { ...text, label: 'Grade', ...inRow, ...alike('grade'), details: EVERYWHERE },
  section: {
    ...{ ...text, label: 'Section', ...inRow, nextRow: 'carried', ...alike('section') },
    // An officer would read a section of the association as the county of take.
    details: ['intake', 'block', 'board', 'ticket', 'list', 'sheet'],
  },
  form: {
    ...{ kind: KIND.oneOf(...FORMS), empty: 'put_up', column: null, label: 'Form' },
    ...{ ...folded, nextRow: 'carried', ...alike('form'), details: ['intake', 'block', 'list', 'officer'] },
  },
  /** The region (ISO 3166-2) whose tags the pieces bear, empty where it is the sale's own. */
  takenIn: {
    ...{ kind: KIND.regionOrEmpty, empty: '', column: null, label: 'Taken in another State' },
    hint: 'Such as US-MT: its tags are then the right ones',
    ...{ ...folded, nextRow: 'carried', ...alike('State of take') },
  },
  minimum: { kind: minimum, empty: null, column: minimumCell, label: 'Minimum', ...inRow, ...parted },
  withoutReserve: {
    kind: KIND.flag,
    empty: false,
    column: null,
    label: 'Without reserve',
    ...folded,
    ...alike('reserve'),
  },
  donated: {
    ...{ kind: KIND.flag, empty: false, column: KIND.flag, label: 'Donated to the association' },
    ...{ ...folded, ...alike('donation') },
  },
  note: { ...text, label: 'Note', ...folded, join: 'stays', divide: 'copied', details: ['intake', 'block'] },
} as const satisfies Readonly<Record<string, LotFieldRules>>;

export type LotField = keyof typeof LOT_FIELDS;
export const LOT_FIELD_NAMES = fieldNames(LOT_FIELDS);

type Rule = 'asked' | 'nextRow' | 'divide';
/** The names of the fields of which a rule holds: `FieldsWith<'asked', 'row'>` are those in the row of the form. */
export type FieldsWith<R extends Rule, V> = {
  [N in LotField]: (typeof LOT_FIELDS)[N][R] extends V ? N : never;
}[LotField];

export function fieldsWith<R extends Rule, const V extends LotFieldRules[R]>(rule: R, value: V) {
  const names = LOT_FIELD_NAMES.filter((name): name is FieldsWith<R, V> => {
    const rules: LotFieldRules = LOT_FIELDS[name];
    return rules[rule] === value;
  });
  return pick(LOT_FIELDS, names);
}

/** Everything that is said of a lot, as the book stores it; the goods by their short name. */
export type LotSaid = Facts<typeof LOT_FIELDS>;
export type LotParted = Facts<Pick<typeof LOT_FIELDS, FieldsWith<'divide', 'parted'>>>;
export type LotAsTyped = Typed<typeof LOT_FIELDS>;
export type LotInFolder = Facts<InFolder<typeof LOT_FIELDS>>;
