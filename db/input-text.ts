/** The text of an input as the log holds it, or why it has none. */
import { accept, type Result, refuse } from '#lib/result.ts';
import { canonical } from './log.ts';

/** No entry of a person is nested so deep. What walks it by calling itself, here and in SQLite, ends before its stack does. */
const DEEPEST = 32;

/**
 * RFC 8785 text of an input that fits its schema. A schema looks at the fields it knows, so a text in a place that it
 * leaves free may still be half a character, and a value there nested without end.
 */
export function inputText(input: unknown): Result<string> {
  if (isDeeper(input, DEEPEST))
    return refuse('malformed', 'Reload the page and enter this anew: it is nested too deep.');
  try {
    return accept(canonical(input));
  } catch {
    return refuse('malformed', 'Leave out the characters that cannot be printed.');
  }
}

function isDeeper(value: unknown, than: number): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return than === 0 || Object.values(value).some((inside) => isDeeper(inside, than - 1));
}
