'use client';

import { type KeyboardEvent, useEffect, useRef } from 'react';
import { Combobox } from '#app/ui/combobox.tsx';
import { CheckField, ChoiceField, TextField } from '#app/ui/field.tsx';
import type { GoodsChoice } from '#db/queries/goods-choices.ts';
import { findChoices, findWords } from '#lib/find-choice.ts';
import { minimumInWords } from '#lib/lot-words.ts';
import { parseMoney } from '#lib/money.ts';
import { parseCount, parseWeight } from '#lib/quantity.ts';
import { byOf, headOf, isDrawn, type Line, type LineField } from './line.ts';
import { TagField } from './tag-field.tsx';

export interface LineFieldsProps {
  readonly line: Line;
  readonly choices: readonly GoodsChoice[];
  readonly goods: GoodsChoice | undefined;
  readonly set: (change: Partial<Line>) => void;
  readonly errorOf: (field: string) => string | undefined;
  /** Goes on from a field with the line as it is now; `change` is what the field itself has just changed. */
  readonly goOn: (from: LineField, change?: Partial<Line>) => void;
  readonly refFor: (field: LineField) => (input: HTMLInputElement | null) => void;
  /** The goods of the line before, which Enter takes again in an empty box. */
  readonly before?: GoodsChoice | undefined;
  readonly autoFocus?: boolean;
}

/** All that is said of a lot: what every line needs first, the rest behind it. */
export function LineFields(props: LineFieldsProps) {
  const { line, goods, set, errorOf, goOn, refFor } = props;
  const byWeight = isDrawn('weight', line, goods);
  return (
    <div className="fields">
      <GoodsField {...props} />
      <PlainField {...props} field="count" label={byWeight ? 'Pieces, if counted' : 'Pieces'} />
      {byWeight && <PlainField {...props} field="weight" label={`Weight in ${byOf(line, goods)}`} />}
      <WordField {...props} field="size" label="Size" words={goods?.sizes ?? []} />
      <WordField {...props} field="grade" label="Grade" words={goods?.grades ?? []} />
      <TextField
        label="Section"
        error={errorOf('section')}
        value={line.section}
        ref={refFor('section')}
        onKeyDown={onEnter(() => goOn('section'))}
        onChange={(event) => set({ section: event.target.value })}
      />
      <TextField
        label="Minimum"
        hint={otherMinimum(line, goods)}
        error={errorOf('minimum')}
        inputMode="decimal"
        value={line.minimum}
        ref={refFor('minimum')}
        onKeyDown={onEnter(() => goOn('minimum'))}
        onChange={(event) => set({ minimum: event.target.value })}
      />
      {isDrawn('tags', line, goods) && (
        <TagField
          text={line.tags}
          broken={line.broken}
          onChange={set}
          pieces={line.count}
          head={headOf(line, goods)}
          error={errorOf('tags')}
          onEnter={() => goOn('tags')}
          inputRef={refFor('tags')}
        />
      )}
      <MoreFields {...props} />
    </div>
  );
}

function GoodsField({ line, choices, goods, set, errorOf, goOn, refFor, before, autoFocus }: LineFieldsProps) {
  const found = findChoices(line.goodsText, choices, ({ name, goods: code }) => `${name} ${code}`);
  return (
    <Combobox
      label="Goods"
      error={errorOf('goods')}
      value={line.goodsText}
      placeholder={before ? `${before.name} again: Enter` : ''}
      inputRef={refFor('goods')}
      autoFocus={autoFocus === true}
      onText={(goodsText) => set({ goodsText, goods: '', by: '' })}
      choices={goods ? [] : found.map(({ goods: id, name: label }) => ({ id, label }))}
      onPick={({ id, label }) => set({ goods: id, goodsText: label })}
      onEnter={(picked) => {
        const again = !picked && line.goodsText === '' && before ? { goods: before.goods, goodsText: before.name } : {};
        goOn('goods', picked ? { goods: picked.id, goodsText: picked.label } : again);
      }}
    />
  );
}

function PlainField(props: LineFieldsProps & { readonly field: 'count' | 'weight'; readonly label: string }) {
  const { line, set, errorOf, goOn, refFor, field, label } = props;
  return (
    <TextField
      label={label}
      error={errorOf(field)}
      inputMode="decimal"
      ref={refFor(field)}
      value={line[field]}
      onFocus={(event) => event.target.select()}
      onKeyDown={onEnter(() => goOn(field))}
      onChange={(event) => set({ [field]: event.target.value })}
    />
  );
}

interface WordFieldProps extends LineFieldsProps {
  readonly field: 'size' | 'grade';
  readonly label: string;
  readonly words: readonly string[];
}

/** A word of the association's own list, by its letters or its place in the list; any other word is taken as typed. */
function WordField({ line, set, errorOf, goOn, refFor, field, label, words }: WordFieldProps) {
  const settled = words.includes(line[field]);
  const fitting = settled ? [] : findWords(line[field], words);
  return (
    <Combobox
      label={label}
      error={errorOf(field)}
      value={line[field]}
      inputRef={refFor(field)}
      openEmpty
      onText={(text) => set({ [field]: text })}
      choices={fitting.map((word) => ({ id: word, label: word, detail: String(words.indexOf(word) + 1) }))}
      onPick={({ id }) => set({ [field]: id })}
      onEnter={(picked) => goOn(field, picked ? { [field]: picked.id } : {})}
    />
  );
}

function MoreFields({ line, set, errorOf, goods }: LineFieldsProps) {
  const folded = useRef<HTMLDetailsElement>(null);
  const isWrong = errorOf('takenIn') !== undefined || errorOf('note') !== undefined;
  // What is said of a field in here must be seen, also where somebody has folded it away.
  useEffect(() => {
    if (isWrong && folded.current) folded.current.open = true;
  });
  return (
    <details className="wide more" ref={folded}>
      <summary>Form, reserve, donated, note</summary>
      <div className="fields">
        <ChoiceField
          label="Form"
          value={line.form}
          onChange={(event) => set({ form: event.target.value as Line['form'] })}
        >
          <option value="put_up">Put up</option>
          <option value="green">Green</option>
          <option value="carcass">Carcass</option>
        </ChoiceField>
        <ChoiceField
          label="Price and minimum stand for"
          value={byOf(line, goods)}
          onChange={(event) => set({ by: event.target.value as Line['by'] })}
        >
          <option value="piece">Each piece</option>
          <option value="lot">The lot</option>
          <option value="lb">A pound</option>
          <option value="oz">An ounce</option>
        </ChoiceField>
        <TextField
          label="Taken in another State"
          hint="Such as US-MT: its tags are then the right ones"
          error={errorOf('takenIn')}
          value={line.takenIn}
          onChange={(event) => set({ takenIn: event.target.value.toUpperCase() })}
        />
        <TextField
          label="Note"
          error={errorOf('note')}
          value={line.note}
          onChange={(event) => set({ note: event.target.value })}
        />
        <CheckField
          label="Without reserve"
          checked={line.withoutReserve}
          onChange={(event) => set({ withoutReserve: event.target.checked })}
        />
        <CheckField
          label="Donated to the association"
          checked={line.donated}
          onChange={(event) => set({ donated: event.target.checked })}
        />
      </div>
    </details>
  );
}

/** The minimum in the other measure, as soon as the figures can be read. */
function otherMinimum(line: Line, goods: GoodsChoice | undefined): string {
  const by = byOf(line, goods);
  const minimum = parseMoney(line.minimum);
  if (!minimum.ok) return `${by === 'piece' ? 'Each' : by === 'lot' ? 'For the lot' : `A ${by}`}; empty for none`;
  const count = parseCount(line.count);
  const weight = parseWeight(line.weight);
  const measured = {
    by,
    count: count.ok ? count.value : null,
    weightThousandths: weight.ok ? weight.value : null,
  };
  return minimumInWords(minimum.value, measured);
}

function onEnter(act: () => void) {
  return (event: KeyboardEvent) => {
    if (event.key !== 'Enter' || event.ctrlKey) return;
    event.preventDefault();
    act();
  };
}
