/** Whether the drawer can be closed over or short: only with a word on why, or the sale could never close after it. */
import { type DrawerLine, differenceInWords } from '#lib/drawer/reckon.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

export function decideDrawerClose(lines: readonly DrawerLine[], note: string): Result<null> {
  const off = lines.flatMap((line) => differenceInWords(line) ?? []);
  if (off.length === 0 || note.trim() !== '') return accept(null);
  return refuse('missing', `${off.join(', ')}: count again, or say in the note why that is so.`, 'note');
}
