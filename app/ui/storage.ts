/**
 * The keys that a browser draws, and small texts that it stores beside the book: its theme, a draft, an offset. Storage
 * that is refused or full throws at every call; then nothing is stored, and the page goes on without it.
 */

type Where = 'localStorage' | 'sessionStorage';

export function readStored(where: Where, place: string): string | null {
  try {
    return window[where].getItem(place);
  } catch {
    return null;
  }
}

/** Null removes the text. */
export function writeStored(where: Where, place: string, text: string | null): void {
  try {
    if (text === null) window[where].removeItem(place);
    else window[where].setItem(place, text);
  } catch {
    // It is gone with the next reload, which is all that is lost.
  }
}

/** 128 random bits; `crypto.randomUUID` is missing on a plain-http host name, `getRandomValues` is not. */
export function drawKey(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
