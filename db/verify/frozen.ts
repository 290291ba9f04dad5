/**
 * Setting a frozen document beside the one that today's program makes of the same lines. What is printed on a sheet may
 * be worded otherwise in a later version; the money on it may not.
 */

/** The columns that keep the text of an issued document. */
export const FROZEN_COLUMN = 'model';

/**
 * Whether a frozen text stands for what the log makes today. Of the same version it is the same text. An older one may
 * be worded otherwise, and says less; but every figure on it is there today in the same place, and so is every amount
 * in its words.
 */
export function sameFrozen(book: string, replay: string): boolean {
  if (book === replay) return true;
  const [frozen, today] = [parsed(book), parsed(replay)];
  if (frozen === null || today === null || versionOf(frozen) >= versionOf(today)) return false;
  const [was, is] = [figuresOf(frozen), figuresOf(today)];
  if ([...was].some(([place, figure]) => is.get(place) !== figure)) return false;
  const amounts = amountsIn(replay);
  return [...amountsIn(book)].every(([amount, times]) => times <= (amounts.get(amount) ?? 0));
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function versionOf(model: unknown): number {
  const version = (model as { version?: unknown } | null)?.version;
  return typeof version === 'number' ? version : 0;
}

/** Every number, and the head of the log, by its place, such as `totals.netCents`; the version is none of them. */
function figuresOf(model: unknown): Map<string, number | string> {
  const figures = new Map<string, number | string>();
  const walk = (value: unknown, place: string): void => {
    if (typeof value === 'number' || (typeof value === 'string' && HASH.test(value))) figures.set(place, value);
    if (typeof value !== 'object' || value === null) return;
    for (const [name, part] of Object.entries(value)) walk(part, `${place}.${name}`);
  };
  walk(model, '');
  figures.delete('.version');
  return figures;
}

const HASH = /^[0-9a-f]{64}$/;
const AMOUNT = /\d[\d,]*\.\d\d(?!\d)/g;

/** How often each amount of money stands in the words. */
function amountsIn(text: string): Map<string, number> {
  const amounts = new Map<string, number>();
  for (const [amount] of text.matchAll(AMOUNT)) amounts.set(amount, (amounts.get(amount) ?? 0) + 1);
  return amounts;
}
