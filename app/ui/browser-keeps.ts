/**
 * What a browser keeps of a page beside the book: its look, a draft, an offset. A browser whose storage is refused or
 * full throws at every call; then nothing is kept, and the page goes on without it.
 */

type Where = 'localStorage' | 'sessionStorage';

export function keptIn(where: Where, place: string): string | null {
  try {
    return window[where].getItem(place);
  } catch {
    return null;
  }
}

/** Null takes out what was kept. */
export function keepIn(where: Where, place: string, text: string | null): void {
  try {
    if (text === null) window[where].removeItem(place);
    else window[where].setItem(place, text);
  } catch {
    // It is gone with the next reload, which is all that is lost.
  }
}
