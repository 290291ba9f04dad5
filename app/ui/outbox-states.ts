/** Where an entry stands between the key that makes it and the book, and where it may stand next. */
export type Standing =
  /** Made, and on its way into the browser's store. */
  | 'typed'
  /** In the browser's store: a reload does not lose it. */
  | 'kept'
  /** Only this tab has it, also while it is sent. */
  | 'not kept'
  /** Given to the server: until it answers, nobody knows whether the book has it. */
  | 'sent'
  /** The server has said that the book has it. Nothing leads out of it. */
  | 'saved'
  /** The book said no, or it was given back to its form: what was typed is shown. */
  | 'refused'
  /** A person or a form has taken back what was typed. */
  | 'let go';

/** An answer may come at any time: from another tab, or of an entry that was sent before. */
const ENDS: readonly Standing[] = ['saved', 'refused', 'let go'];

const NEXT: Readonly<Record<Standing, readonly Standing[]>> = {
  typed: ['kept', 'not kept', ...ENDS],
  kept: ['sent', 'not kept', ...ENDS],
  sent: ['not kept', ...ENDS],
  'not kept': ENDS,
  refused: ['typed', ...ENDS],
  saved: [],
  'let go': [],
};

/** Where it stands from now on. What may not come next changes nothing: an answer comes twice, or too late. */
export function nextStanding(now: Standing, next: Standing): Standing {
  return NEXT[now].includes(next) ? next : now;
}
