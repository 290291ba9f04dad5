/**
 * Keys that come faster than the field they are for. Between the key that opens a box and the cursor in it, and while a
 * box waits for the server, keys are held; they are handed on one by one, in order, to the field that has the cursor
 * then. A field cannot do that for itself: the cursor may still stand in another one, or in none.
 */

const held: string[] = [];
/** True until the field is there. */
let waiting = false;
let handing: ReturnType<typeof setTimeout> | undefined;

export function bufferKeys(): void {
  waiting = true;
  addEventListener('keydown', hold, true);
}

/** The field is there and has the cursor: it gets what was typed for it. */
export function replayKeys(): void {
  waiting = false;
  clearTimeout(handing);
  if (held.length === 0) {
    discard();
    return;
  }
  // The screen draws what a key did before the next one comes; a key may open a box that is to be waited for itself.
  handing = setTimeout(() => {
    const key = held.shift();
    if (key !== undefined) press(key);
    if (!waiting) replayKeys();
  });
}

/** Takes out what was typed for something that does not come, in words to be shown: nothing typed vanishes unsaid. */
export function takeBufferedKeys(): string {
  const typed = held.map((key) => (key.length === 1 ? key : ' ')).join('');
  held.length = 0;
  discard();
  return typed.trim();
}

function discard(): void {
  waiting = false;
  clearTimeout(handing);
  removeEventListener('keydown', hold, true);
}

function hold(event: KeyboardEvent): void {
  const { key } = event;
  // Who leaves the box leaves what was typed for it; the keys that are handed on come by here as well.
  if (key === 'Escape') takeBufferedKeys();
  const taken = event.isTrusted && !event.ctrlKey && !event.altKey && !event.metaKey;
  if (!taken || (key.length > 1 && !['Enter', 'Tab', 'Backspace'].includes(key))) return;
  event.preventDefault();
  event.stopPropagation();
  held.push(key);
}

/** Does what the browser does with a key: first it is heard, then it goes on, or into the text. */
function press(key: string): void {
  const field = document.activeElement;
  if (!(field instanceof HTMLInputElement)) return;
  if (!field.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }))) return;
  if (key === 'Enter') field.form?.requestSubmit();
  else if (key === 'Tab') focusNext();
  else putIn(field, key === 'Backspace' ? '' : key);
}

/** Puts a letter in the place of what is selected; nothing takes out what stands before the cursor. */
function putIn(field: HTMLInputElement, letter: string): void {
  const [start, end] = [field.selectionStart ?? 0, field.selectionEnd ?? 0];
  const from = letter === '' && start === end ? Math.max(0, start - 1) : start;
  field.setRangeText(letter, from, end, 'end');
  field.dispatchEvent(new InputEvent('input', { bubbles: true }));
}

/** On to the next field of the form that holds the cursor; false at the last one. */
export function focusNext(): boolean {
  const at = document.activeElement;
  const fields = [...(at?.closest('form')?.querySelectorAll('input') ?? [])];
  const next = at instanceof HTMLInputElement ? fields[fields.indexOf(at) + 1] : undefined;
  next?.focus();
  next?.select();
  return next !== undefined;
}
