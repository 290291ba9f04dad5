/** The text of a list that somebody brings as a file. */
import { accept, type Result, refuse } from '#lib/result.ts';

const LARGEST_BYTES = 400_000;

/** UTF-8 with or without its mark; a spreadsheet's own file, or another encoding, is refused with what to do. */
export async function readListFile(file: File): Promise<Result<string>> {
  if (file.size > LARGEST_BYTES) return refuse('too_large', `${file.name} is too large for one list: divide it.`);
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
    if (!text.includes('\0')) return accept(text);
  } catch {
    // What is no UTF-8 is told in the same words as a file that is no text.
  }
  return refuse('malformed', `${file.name} is no list in plain text: save it as CSV in UTF-8 and choose it again.`);
}
