import type { CommandName, InputOf } from '#db/commands/index.ts';

declare const NOT_A_NUMBER: unique symbol;

/** A text that was typed where a number belongs. It is sent as it is, because the book says what is wrong with it. */
export type NotANumber = string & { readonly [NOT_A_NUMBER]: true };

type Typed<T> = T extends number ? T | NotANumber : T extends object ? { readonly [K in keyof T]: Typed<T[K]> } : T;

/** What a form sends with a command: its input, with what was typed where a number belongs. */
export type TypedInput<N extends CommandName> = Typed<InputOf<N>>;

/** A number as it was typed, or the text itself where it is none: the book says what is wrong with it. */
export function wholeNumber(typed: string): number | NotANumber {
  return /^\d{1,9}$/.test(typed.trim()) ? Number.parseInt(typed, 10) : (typed as NotANumber);
}
