/**
 * What follows from a list of fields: the facts as they are stored, the rows of a file, and what stands in a form. The
 * types are made from the list, so that a field which a place forgets does not compile. Names made at run time are the
 * one thing that a compiler cannot follow: the assertions stand here, and nowhere else.
 */
import type { Cents } from '#lib/money/money.ts';
import type { Rate } from '#lib/money/rate.ts';
import type { Result } from '#lib/result/result.ts';
import type { ChoiceKind, FieldKind, Flag, Unit, Words } from './kinds.ts';

interface AnyFigure {
  readonly as: 'figure';
  readonly unit: Unit;
  readonly known?: (stored: never) => unknown;
  read(text: string): Result<unknown>;
  write(value: never): string;
}

type AnyKind = AnyFigure | Words | Flag | ChoiceKind<string>;

export interface AnyField {
  readonly kind: AnyKind;
  /** What is meant where nothing is said; left out where something must be said. */
  readonly empty?: unknown;
  /** How its column in a file of the exchange folder reads, or null where it has none. */
  readonly column: AnyKind | null;
  /**
   * Left out of a file in which no row has anything to say there. Every column that came after the first ones is: it
   * moves no other, and in a pasted list it is known by its heading only.
   */
  readonly later?: boolean;
  readonly label: string;
  readonly hint?: string;
}

export type AnyFields = Readonly<Record<string, AnyField>>;
type Names<F> = keyof F & string;

export type KindValue<K> = K extends { read(text: string): Result<infer T> } ? T : never;

/** The name under which the value is stored: `minimum` is stored as `minimumCents`. */
type FactName<N extends string, K> = K extends { readonly unit: infer U extends Unit } ? `${N}${U}` : N;

/** The name of a column: `memberNo` is the column `member_no`. */
export type ColumnName<N extends string> = N extends `${infer C}${infer R}`
  ? `${C extends Lowercase<C> ? C : `_${Lowercase<C>}`}${ColumnName<R>}`
  : N;

/** The values under the names of the fields, as a command has read them. */
export type Said<F extends AnyFields> = { readonly [N in Names<F>]: KindValue<F[N]['kind']> };
export type Facts<F extends AnyFields> = {
  readonly [N in Names<F> as FactName<N, F[N]['kind']>]: KindValue<F[N]['kind']>;
};
/** What stands in a form: text, a tick or a choice. */
export type Typed<F extends AnyFields> = {
  readonly [N in Names<F>]: F[N]['kind'] extends Flag ? boolean : F[N]['kind'] extends ChoiceKind<infer W> ? W : string;
};
export type InFolder<F extends AnyFields> = Pick<
  F,
  { [N in Names<F>]: F[N]['column'] extends null ? never : N }[Names<F>]
>;
export type Columns<F extends AnyFields> = {
  readonly [N in Names<InFolder<F>> as ColumnName<N>]: NonNullable<F[N]['column']>;
};
export type Cells<F extends AnyFields> = {
  readonly [N in Names<InFolder<F>> as ColumnName<N>]: KindValue<F[N]['column']>;
};

export function fieldNames<F extends object>(fields: F): Names<F>[] {
  return Object.keys(fields) as Names<F>[];
}

export function pick<F extends object, const N extends keyof F>(from: F, names: readonly N[]): Pick<F, NoInfer<N>> {
  return Object.fromEntries(names.map((name) => [name, from[name]])) as Pick<F, N>;
}

export function hintOf({ hint }: AnyField): string | undefined {
  return hint;
}

export function columnName<N extends string>(name: N): ColumnName<N> {
  return name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`) as ColumnName<N>;
}

function factName(name: string, { kind }: AnyField): string {
  return `${name}${kind.unit}`;
}

export function recordOf<N extends string, V>(names: readonly N[], make: (name: N) => V): Record<N, V> {
  return Object.fromEntries(names.map((name) => [name, make(name)])) as Record<N, V>;
}

function made<F extends AnyFields>(fields: F, entry: (name: string, field: AnyField) => [string, unknown]): unknown {
  return Object.fromEntries(Object.entries(fields).map(([name, field]) => entry(name, field)));
}

export function inFolder<F extends AnyFields>(fields: F): InFolder<F> {
  return Object.fromEntries(Object.entries(fields).filter(([, { column }]) => column !== null)) as InFolder<F>;
}

function valueAt(from: object, name: string): unknown {
  return (from as Readonly<Record<string, unknown>>)[name];
}

export function columnsOf<F extends AnyFields>(fields: F): Columns<F> {
  return made(inFolder(fields), (name, { column }) => [columnName(name), column]) as Columns<F>;
}

export function laterColumns(fields: AnyFields): string[] {
  return Object.entries(fields).flatMap(([name, { later }]) => (later ? [columnName(name)] : []));
}

export function factsOfSaid<F extends AnyFields>(fields: F, said: Said<F>): Facts<F> {
  return made(fields, (name, field) => [factName(name, field), valueAt(said, name)]) as Facts<F>;
}

type Plain<V> = V extends Cents ? number : V extends Rate ? string : V;
/** The facts as they stand in a row of the book, where money is a number and a rate is text. */
export type StoredFacts<F extends AnyFields> = { readonly [N in keyof Facts<F>]: Plain<Facts<F>[N]> };

/** Only the facts of the list, out of a row that has more. */
export function factsOfRow<F extends AnyFields>(fields: F, row: StoredFacts<F>): Facts<F> {
  const facts = made(fields, (name, field) => {
    const stored = valueAt(row, factName(name, field));
    const known = field.kind.as === 'figure' && stored !== null ? field.kind.known : undefined;
    return [factName(name, field), known ? known(stored as never) : stored];
  });
  return facts as Facts<F>;
}

export function factsOfCells<F extends AnyFields>(fields: F, cells: Cells<F>): Facts<InFolder<F>> {
  const facts = made(inFolder(fields), (name, field) => [factName(name, field), valueAt(cells, columnName(name))]);
  return facts as Facts<InFolder<F>>;
}

export function cellsOfFacts<F extends AnyFields>(fields: F, facts: Facts<InFolder<F>>): Cells<F> {
  const cells = made(inFolder(fields), (name, field) => [columnName(name), valueAt(facts, factName(name, field))]);
  return cells as Cells<F>;
}

export type TypedCells<F extends AnyFields> = { readonly [N in Names<F> as ColumnName<N>]: Typed<F>[N] };

export function typedCellsOf<F extends AnyFields>(fields: F, typed: Typed<F>): TypedCells<F> {
  return made(fields, (name) => [columnName(name), valueAt(typed, name)]) as TypedCells<F>;
}

/** The same as a file has it, out of the facts. */
export function writtenCellsOf<F extends AnyFields>(fields: F, facts: StoredFacts<F>): TypedCells<F> {
  return made(fields, (name, field) => {
    const value = valueAt(facts, factName(name, field));
    return [columnName(name), typedValue({ ...field, kind: field.column ?? field.kind }, value)];
  }) as TypedCells<F>;
}

/** The facts of a row that is read as an array, which costs a fifth of an object: the columns' names, and their reader. */
export function arrayReader<F extends AnyFields>(fields: F) {
  const columns = Object.entries(fields).map(([name, field]) => ({
    name: factName(name, field),
    isFlag: field.kind.as === 'flag',
  }));
  return {
    names: columns.map(({ name }) => name) as (keyof Facts<F>)[],
    /** `cells` begin with the columns of `names`; SQLite has a flag as 0 or 1. */
    read(cells: readonly unknown[]): Facts<F> {
      const facts: Record<string, unknown> = {};
      columns.forEach(({ name, isFlag }, at) => {
        facts[name] = isFlag ? cells[at] === 1 : cells[at];
      });
      return facts as Facts<F>;
    },
  };
}

type MayBeUnsaid<F extends AnyFields> = {
  [N in Names<F>]: F[N] extends { readonly empty: unknown } ? N : never;
}[Names<F>];

export function emptyFacts<F extends AnyFields>(fields: F): Facts<Pick<F, MayBeUnsaid<F>>> {
  const unsaid = Object.fromEntries(Object.entries(fields).filter(([, field]) => 'empty' in field));
  return made(unsaid, (name, field) => [factName(name, field), field.empty]) as Facts<Pick<F, MayBeUnsaid<F>>>;
}

export function typedOf<F extends AnyFields>(fields: F, facts: StoredFacts<F>): Typed<F> {
  return made(fields, (name, field) => [name, typedValue(field, valueAt(facts, factName(name, field)))]) as Typed<F>;
}

export function emptyTyped<F extends AnyFields>(fields: F): Typed<F> {
  return made(fields, (name, field) => [name, typedValue(field, field.empty ?? null)]) as Typed<F>;
}

function typedValue({ kind }: AnyField, value: unknown): unknown {
  if (kind.as === 'flag' || kind.as === 'choice') return value;
  return value === null ? '' : (kind as FieldKind<unknown>).write(value);
}
