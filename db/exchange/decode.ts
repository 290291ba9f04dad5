/** The text of a file in UTF-8. */
import { refuse } from '#lib/result.ts';
import type { Report } from './problem.ts';

export interface Decoded {
  /** Without a byte-order mark; a byte that is not UTF-8 has become U+FFFD. */
  readonly text: string;
  readonly damaged: boolean;
}

export const REPLACEMENT = '\ufffd';
export const NOT_UTF8 = refuse('malformed', 'Type this anew and save the file as UTF-8: it holds bytes that are not.');

/** Decodes a file, or reports that it is in another encoding altogether and gives null. */
export function decode(bytes: Uint8Array, report: (refusal: Parameters<Report>[1]) => void): Decoded | null {
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    report(refuse('malformed', 'Save the file as UTF-8: this is UTF-16.'));
    return null;
  }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), damaged: false };
  } catch {
    return { text: new TextDecoder('utf-8').decode(bytes), damaged: true };
  }
}
