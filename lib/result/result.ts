/**
 * The closed set of reasons for which the book says no.
 * A screen, the command line and the tests decide by the code; the sentence is for the person.
 */
export const REFUSAL_CODES = [
  'malformed',
  'missing',
  'unknown',
  'taken',
  'already',
  'not_allowed',
  'signed_out',
  'wrong_address',
  'open_line',
  'wrong_stage',
  'on_hold',
  'needs_answer',
  'conflict',
  'too_large',
] as const;
export type RefusalCode = (typeof REFUSAL_CODES)[number];

/** Why something was refused: a closed code, a sentence that tells the person what to do, and the field it is about. */
export interface Refusal {
  readonly ok: false;
  readonly code: RefusalCode;
  readonly message: string;
  readonly field?: string;
  /** Whatever else was wrong in the same entry, so that everything can be put right at once. */
  readonly also?: readonly Refusal[];
}

export interface Accepted<T> {
  readonly ok: true;
  readonly value: T;
}

export type Result<T> = Accepted<T> | Refusal;

export function accept<T>(value: T): Accepted<T> {
  return { ok: true, value };
}

export function refuse(code: RefusalCode, message: string, field?: string): Refusal {
  return field === undefined ? { ok: false, code, message } : { ok: false, code, message, field };
}

/** The first refusal with all others behind it; undefined where there is none. */
export function allOf(refusals: readonly Refusal[]): Refusal | undefined {
  const [first, ...also] = refusals;
  return first && also.length > 0 ? { ...first, also } : first;
}

/** Kinds of mistakes in a typed figure, each with its own sentence that says what to do. */
export interface Mistake {
  readonly when: RegExp;
  /** `malformed` unless said otherwise. */
  readonly code?: RefusalCode;
  readonly say: string;
}

export function firstMistake(mistakes: readonly Mistake[], text: string): Refusal | null {
  const found = mistakes.find((mistake) => mistake.when.test(text));
  return found === undefined ? null : refuse(found.code ?? 'malformed', found.say);
}
