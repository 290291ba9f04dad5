'use client';

import { type KeyboardEvent, type ReactNode, useEffect, useRef } from 'react';
import { Combobox } from '#app/ui/combobox.tsx';
import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import { Options } from '#app/ui/form.tsx';
import type { GoodsChoice } from '#db/sale/goods.ts';
import { fieldNames, hintOf } from '#lib/field/fields.ts';
import { type FieldsWith, fieldsWith, LOT_FIELDS, type LotAsTyped } from '#lib/lot/fields.ts';
import { minimumInWords } from '#lib/lot/words.ts';
import { readMoney } from '#lib/money/money.ts';
import { parseCount, parseWeight } from '#lib/quantity/quantity.ts';
import { findChoices, findWords } from '#lib/result/search.ts';
import { byOf, headOf, type IntakeRow, isDrawn, type RowField } from './row.ts';
import { TagField } from './tag-editor.tsx';

export interface RowFieldsProps {
  readonly row: IntakeRow;
  readonly choices: readonly GoodsChoice[];
  readonly goods: GoodsChoice | undefined;
  readonly set: (change: Partial<IntakeRow>) => void;
  readonly errorOf: (field: string) => string | undefined;
  /** Goes on from a field with the row as it is now; `change` is what the field itself has just changed. */
  readonly focusNext: (from: RowField, change?: Partial<IntakeRow>) => void;
  readonly refFor: (field: RowField) => (input: HTMLInputElement | null) => void;
  /** The goods of the row before, which Enter takes again in an empty box. */
  readonly before?: GoodsChoice | undefined;
  readonly autoFocus?: boolean;
}

type AskedField = FieldsWith<'asked', 'row'>;
const ASKED_IN_ROW = fieldNames(fieldsWith('asked', 'row'));

/** How a field of the row is drawn, where it is no plain box for text. */
const DRAWN: { readonly [N in AskedField]?: (props: RowFieldsProps) => ReactNode } = {
  goods: GoodsField,
  count: (props) => {
    const label = isDrawn('weight', props.row, props.goods) ? 'Pieces, if counted' : 'Pieces';
    return <PlainField {...props} field="count" label={label} figure selected />;
  },
  weight: (props) =>
    isDrawn('weight', props.row, props.goods) && (
      <PlainField {...props} field="weight" label={`Weight in ${byOf(props.row, props.goods)}`} figure selected />
    ),
  size: (props) => <WordField {...props} field="size" words={props.goods?.sizes ?? []} />,
  grade: (props) => <WordField {...props} field="grade" words={props.goods?.grades ?? []} />,
  minimum: (props) => <PlainField {...props} field="minimum" hint={otherMinimum(props.row, props.goods)} figure />,
};

/** All that is said of a lot: what every row needs first, the rest behind it. */
export function RowFields(props: RowFieldsProps) {
  const { row, goods, set, errorOf, focusNext, refFor } = props;
  return (
    <div className="fields">
      {ASKED_IN_ROW.map((field) => {
        const Drawn = DRAWN[field];
        return Drawn ? <Drawn key={field} {...props} /> : <PlainField key={field} {...props} field={field} />;
      })}
      {isDrawn('tags', row, goods) && (
        <TagField
          text={row.tags}
          broken={row.broken}
          onChange={set}
          pieces={row.count}
          head={headOf(row, goods)}
          error={errorOf('tags')}
          onEnter={() => focusNext('tags')}
          inputRef={refFor('tags')}
        />
      )}
      <MoreFields {...props} />
    </div>
  );
}

interface PlainFieldProps extends RowFieldsProps {
  readonly field: AskedField;
  readonly label?: string;
  readonly hint?: string;
  readonly figure?: boolean;
  /** Whether what stands there is marked, to be typed over. */
  readonly selected?: boolean;
}

function PlainField(props: PlainFieldProps) {
  const { row, set, errorOf, focusNext, refFor, field, label, hint, figure, selected } = props;
  return (
    <TextField
      label={label ?? LOT_FIELDS[field].label}
      hint={hint}
      error={errorOf(field)}
      inputMode={figure ? 'decimal' : undefined}
      value={row[field]}
      ref={refFor(field)}
      onFocus={selected ? (event) => event.target.select() : undefined}
      onKeyDown={onEnter(() => focusNext(field))}
      onText={(text) => set({ [field]: text })}
    />
  );
}

function GoodsField({ row, choices, goods, set, errorOf, focusNext, refFor, before, autoFocus }: RowFieldsProps) {
  const found = findChoices(row.goodsText, choices, ({ name, goods: code }) => `${name} ${code}`);
  return (
    <Combobox
      label="Goods"
      error={errorOf('goods')}
      value={row.goodsText}
      placeholder={before ? `${before.name} again: Enter` : ''}
      inputRef={refFor('goods')}
      autoFocus={autoFocus === true}
      onText={(goodsText) => set({ goodsText, goods: '', by: '' })}
      choices={goods ? [] : found.map(({ goods: id, name: label }) => ({ id, label }))}
      onPick={({ id, label }) => set({ goods: id, goodsText: label })}
      onEnter={(picked) => {
        const again = !picked && row.goodsText === '' && before ? { goods: before.goods, goodsText: before.name } : {};
        focusNext('goods', picked ? { goods: picked.id, goodsText: picked.label } : again);
      }}
    />
  );
}

interface WordFieldProps extends RowFieldsProps {
  readonly field: 'size' | 'grade';
  readonly words: readonly string[];
}

/** A word of the association's own list, by its letters or its place in the list; any other word is taken as typed. */
function WordField({ row, set, errorOf, focusNext, refFor, field, words }: WordFieldProps) {
  const settled = words.includes(row[field]);
  const fitting = settled ? [] : findWords(row[field], words);
  return (
    <Combobox
      label={LOT_FIELDS[field].label}
      error={errorOf(field)}
      value={row[field]}
      inputRef={refFor(field)}
      openEmpty
      onText={(text) => set({ [field]: text })}
      choices={fitting.map((word) => ({ id: word, label: word, detail: String(words.indexOf(word) + 1) }))}
      onPick={({ id }) => set({ [field]: id })}
      onEnter={(picked) => focusNext(field, picked ? { [field]: picked.id } : {})}
    />
  );
}

type Folded = FieldsWith<'asked', 'folded'>;
type FoldedAs<K> = { [N in Folded]: (typeof LOT_FIELDS)[N]['kind'] extends { readonly as: K } ? N : never }[Folded];
type FoldedText = Exclude<Folded, FoldedAs<'choice'> | FoldedAs<'flag'>>;

/** The choices, in the order in which they are drawn, and what each word of them is called. */
const CHOICES: { readonly [N in FoldedAs<'choice'>]: Readonly<Record<LotAsTyped[N], string>> } = {
  form: { put_up: 'Put up', green: 'Green', carcass: 'Carcass' },
  by: { piece: 'Each piece', lot: 'The lot', lb: 'A pound', oz: 'An ounce' },
};
const FOLDED = fieldNames(fieldsWith('asked', 'folded'));
const TICKS = FOLDED.filter((name): name is FoldedAs<'flag'> => LOT_FIELDS[name].kind.as === 'flag');
const TEXTS = FOLDED.filter(
  (name): name is FoldedText => LOT_FIELDS[name].kind.as === 'words' || LOT_FIELDS[name].kind.as === 'figure',
);

/** Choices first, then boxes for text, then ticks. */
function MoreFields({ row, set, errorOf, goods }: RowFieldsProps) {
  const folded = useRef<HTMLDetailsElement>(null);
  const isWrong = FOLDED.filter(errorOf).length > 0;
  // What is said of a field in here must be seen, also where somebody has folded it away.
  useEffect(() => {
    if (isWrong && folded.current) folded.current.open = true;
  });
  return (
    <details className="wide more" ref={folded}>
      <summary>Form, reserve, donated, note</summary>
      <div className="fields">
        {fieldNames(CHOICES).map((name) => (
          <ChoiceField
            key={name}
            label={LOT_FIELDS[name].label}
            value={name === 'by' ? byOf(row, goods) : row[name]}
            onPick={(value) => set({ [name]: value })}
          >
            <Options of={Object.entries(CHOICES[name])} />
          </ChoiceField>
        ))}
        {TEXTS.map((name) => (
          <TextField
            key={name}
            label={LOT_FIELDS[name].label}
            hint={hintOf(LOT_FIELDS[name])}
            error={errorOf(name)}
            value={row[name]}
            onText={(text) => set({ [name]: name === 'takenIn' ? text.toUpperCase() : text })}
          />
        ))}
        {TICKS.map((name) => (
          <CheckField
            key={name}
            label={LOT_FIELDS[name].label}
            checked={row[name]}
            onTick={(checked) => set({ [name]: checked })}
          />
        ))}
      </div>
    </details>
  );
}

/** The minimum in the other measure, as soon as the figures can be read. */
function otherMinimum(row: IntakeRow, goods: GoodsChoice | undefined): string {
  const by = byOf(row, goods);
  const minimum = readMoney(row.minimum);
  if (!minimum.ok) return `${by === 'piece' ? 'Each' : by === 'lot' ? 'For the lot' : `A ${by}`}; empty for none`;
  const count = parseCount(row.count);
  const weight = parseWeight(row.weight);
  const measured = { by, count: count.ok ? count.value : null, weightThousandths: weight.ok ? weight.value : null };
  return minimumInWords(minimum.value, measured);
}

function onEnter(act: () => void) {
  return (event: KeyboardEvent) => {
    if (event.key !== 'Enter' || event.ctrlKey) return;
    event.preventDefault();
    act();
  };
}
