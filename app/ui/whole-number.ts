/** A number as it was typed, or the text itself where it is none: the book says what is wrong with it. */
export function wholeNumber(typed: string): number | string {
  return /^\d{1,9}$/.test(typed.trim()) ? Number.parseInt(typed, 10) : typed;
}
