/** What stands at the top of every paper of a sale: which sale it is, and the newest line of the log. */
import type { Sale } from '#lib/facts.ts';
import type { SheetStamp } from '#lib/sheet/input.ts';
import type { SheetHead, SheetSale } from '#lib/sheet/model.ts';
import { clean, dateInWords, joined } from '#lib/sheet/spell.ts';

/** The seal in groups of eight, so that two people can compare it aloud. */
export function headOf({ seq, hash }: SheetStamp['head']): SheetHead {
  const groups = hash.match(/.{1,8}/g) ?? [];
  return { seq, hash, words: `Log line ${seq}, seal ${groups.join(' ')}` };
}

export function saleOf({ name, heldOn, venue, season, currency }: Sale): SheetSale {
  const heldOnWords = dateInWords(heldOn);
  const words = joined([heldOnWords, venue, `season ${season}`], ' · ');
  return { name: clean(name), heldOn, heldOnWords, venue: clean(venue), season: clean(season), currency, words };
}
