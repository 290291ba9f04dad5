/**
 * What is half typed on a page, kept in this tab while its worker signs in again. It is put back for that worker only, and
 * not where a form was left in another way: what was saved meanwhile must not stand there once more.
 */
import { readStored, writeStored } from '#app/ui/storage.ts';

/** Each field by its label, and which of that name it is, with what was typed there. */
type Fields = readonly (readonly [field: string, text: string])[];

interface Draft {
  readonly worker: string;
  readonly path: string;
  readonly fields: Fields;
  /** Whether the page of it was asked for once already. */
  readonly asked?: boolean;
}

type Field = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

const LEFT = 'peltry-typed';
const placeOf = (worker: string) => `${LEFT}-${worker}`;
const SEEN = 'main :is(input:not([type=password], [type=file], [type=hidden]), textarea, select)';
const CHECKED: readonly string[] = ['checkbox', 'radio'];
const isChecked = (field: Field): field is HTMLInputElement => CHECKED.includes(field.type);

const here = () => location.pathname + location.search;

/** The fields that are drawn, each under a name of its own. */
function fieldsNow(): Map<string, Field> {
  const named = new Map<string, Field>();
  for (const field of document.querySelectorAll<Field>(SEEN)) {
    const label = field.labels?.[0]?.textContent ?? field.name;
    let name = label;
    for (let nth = 2; named.has(name); nth += 1) name = `${label} ${nth}`;
    named.set(name, field);
  }
  return named;
}

/** A form that waits for its answer has given its entry to the outbox, which keeps it. */
const isGiven = ({ form }: Field) => form?.matches('[data-busy], :has([type=submit]:disabled)') ?? false;

/** The fields in which somebody typed on this page. */
const touched = new WeakSet<EventTarget>();

export function noteTyping({ target }: Event): void {
  if (target) touched.add(target);
}

/** Notes what stands in those fields as the page is left; nothing where nothing does. */
export function noteLeft(worker: string): void {
  const fields = [...fieldsNow()].flatMap(([name, field]) => {
    const text = isChecked(field) ? String(field.checked) : field.value;
    return touched.has(field) && text !== '' && !isGiven(field) ? [[name, text] as const] : [];
  });
  const draft: Draft = { worker, path: here(), fields };
  writeStored('sessionStorage', LEFT, fields.length > 0 ? JSON.stringify(draft) : null);
}

/** Whoever comes to sign in was interrupted: what was left is kept for its worker. */
export function keepForSigningIn(): void {
  const left = readStored('sessionStorage', LEFT);
  writeStored('sessionStorage', LEFT, null);
  if (left) writeStored('sessionStorage', placeOf((JSON.parse(left) as Draft).worker), left);
}

/**
 * Puts back what this worker had typed, on the page where it was typed, to which it leads first. Gives what could not be
 * put back, because its field is not drawn any more; undefined where nothing was kept.
 */
export async function putBack(worker: string): Promise<Fields | undefined> {
  writeStored('sessionStorage', LEFT, null);
  const kept = readStored('sessionStorage', placeOf(worker));
  if (!kept) return undefined;
  const draft = JSON.parse(kept) as Draft;
  if (draft.path !== here() && !draft.asked) {
    writeStored('sessionStorage', placeOf(worker), JSON.stringify({ ...draft, asked: true }));
    location.replace(draft.path);
    return undefined;
  }
  writeStored('sessionStorage', placeOf(worker), null);
  if (draft.path !== here()) return draft.fields;
  const rest: (readonly [string, string])[] = [];
  for (const [name, text] of draft.fields) {
    const field = fieldsNow().get(name);
    if (field) fill(field, text);
    else rest.push([name, text]);
    // A field may bring others with it.
    await new Promise((resolve) => setTimeout(resolve));
  }
  return rest;
}

/** As if it was typed: the page's own code hears of it. */
function fill(field: Field, text: string): void {
  field.closest('details')?.setAttribute('open', '');
  if (isChecked(field)) {
    if (String(field.checked) !== text) field.click();
    return;
  }
  // The page's code has put its own way of setting a value before this one.
  const own = Object.getOwnPropertyDescriptor(Object.getPrototypeOf(field), 'value');
  own?.set?.call(field, text);
  for (const type of ['input', 'change']) field.dispatchEvent(new Event(type, { bubbles: true }));
}
