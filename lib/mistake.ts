/** Kinds of mistakes in a typed figure, each with its own sentence that says what to do. */
import { type Refusal, type RefusalCode, refuse } from '#lib/result.ts';

export interface Mistake {
  readonly when: RegExp;
  /** `malformed` unless said otherwise. */
  readonly code?: RefusalCode;
  readonly say: string;
}

/** The refusal for the first mistake of the list that the text makes, or null. */
export function firstMistake(mistakes: readonly Mistake[], text: string): Refusal | null {
  const found = mistakes.find((mistake) => mistake.when.test(text));
  return found === undefined ? null : refuse(found.code ?? 'malformed', found.say);
}
