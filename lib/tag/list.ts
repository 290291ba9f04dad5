/** Lists and ranges of export tags, as they are typed at the check-in table for a lot of many pieces. */
import type { PaperTag } from '#lib/paper/facts.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import { compareCodePoints } from '#lib/result/text.ts';
import { CONDITIONS } from '#lib/settlement/parties.ts';
import { parseTag, type Tag } from './number.ts';

export const MOST_TAGS = 500;
const LONGEST_ITEM = 120;

const BY_HYPHEN = /^(.*?[\s\-./])([A-Z]*)(\d+)\s*-\s*([A-Z]*)(\d+)$/i;
const BY_WORD = /^(.*?[\s\-./])([A-Z]*)(\d+)\s*(?:\s+to\s+|[\u2013\u2014])\s*(?:\1)?([A-Z]*)(\d+)$/i;
const BARE = /^[A-Z]{0,3}\d+(?:\s*(?:-|\u2013|\u2014|\s+to\s+)\s*[A-Z]{0,3}\d+)?$/i;

/**
 * Reads tags parted by commas, semicolons or line ends. An item may be a range (`… 000101-000118`, or with `to` or a
 * dash) and keeps its leading zeros; an item of a number alone goes with the State, species and year before it.
 */
export function expandTags(text: string): Result<Tag[]> {
  const items = text
    .split(/[,;\r\n]+/)
    .map((item) => item.trim())
    .filter((item) => item !== '');
  if (items.length === 0)
    return refuse('missing', 'Enter the numbers on the tags, such as US-CITES WY BOB 2025 000101.');
  const tags: Tag[] = [];
  for (const item of items) {
    const before = tags.at(-1);
    const found = expandItem(before !== undefined && BARE.test(item) ? `${headOf(before)} ${item}` : item);
    if (!found.ok) return found;
    if (tags.length + found.value.length > MOST_TAGS) return tooMany();
    tags.push(...found.value);
  }
  return accept(tags);
}

function headOf(tag: Tag): string {
  return tag.canonical.slice(0, -tag.serial.length - 1);
}

function expandItem(item: string): Result<Tag[]> {
  if (item.length > LONGEST_ITEM) return refuse('too_large', 'Part the tags with commas or put each on its own line.');
  const worded = BY_WORD.exec(item);
  if (worded !== null) return expandRange(worded);
  const whole = parseTag(item);
  const hyphened = BY_HYPHEN.exec(item);
  if (hyphened === null) return whole.ok ? accept([whole.value]) : whole;
  if (!whole.ok) return expandRange(hyphened);
  // `… BOB 2025-2040` may be a year with a number or a range of numbers: the person has to say which.
  if (!mayBeRange(hyphened)) return accept([whole.value]);
  return refuse('needs_answer', `Write "to" for a range of tags, or a space behind the year of take: ${item}.`);
}

function mayBeRange(match: RegExpExecArray): boolean {
  const [, head = '', letters = '', from = '', , to = ''] = match;
  const size = BigInt(to) - BigInt(from);
  // A range of more tags than fit in a lot would be refused anyway: a long number behind a year is a serial.
  const fits = size >= 0n && size < BigInt(MOST_TAGS);
  return fits && !to.startsWith('0') && parseTag(`${head}${letters}${from}`).ok;
}

function expandRange(match: RegExpExecArray): Result<Tag[]> {
  const [item, head = '', letters = '', from = '', lastLetters = '', to = ''] = match;
  const first = parseTag(`${head}${letters}${from}`);
  if (!first.ok) return first;
  if (lastLetters !== '' && lastLetters.toUpperCase() !== letters.toUpperCase()) {
    return refuse('malformed', `Enter the tags one by one: the ends of ${item} begin with other letters.`);
  }
  const start = BigInt(from);
  const end = BigInt(to);
  if (end < start) return refuse('malformed', `Enter the lower number first: ${item} runs backwards.`);
  if (end - start >= BigInt(MOST_TAGS)) return tooMany();
  return tagsFrom(`${head}${letters}`, { start, end, width: from.length });
}

function tagsFrom(head: string, range: { start: bigint; end: bigint; width: number }): Result<Tag[]> {
  const tags: Tag[] = [];
  for (let number = range.start; number <= range.end; number += 1n) {
    const tag = parseTag(`${head}${String(number).padStart(range.width, '0')}`);
    if (!tag.ok) return tag;
    tags.push(tag.value);
  }
  return accept(tags);
}

function tooMany(): Result<never> {
  return refuse('too_large', `Enter at most ${MOST_TAGS} tags at a time, or check the range.`);
}

/** All but the last digits of a tag, and those: `US-CITES WY BOB 2025 ` and `000101`. */
const NUMBERED = /^(.*[\sA-Z])(\d+)$/;

interface Run {
  readonly head: string;
  readonly from: string;
  readonly to: string;
}

/**
 * The tags of a lot in order: `US-CITES WY BOB 2025 000101 to 000118` for numbers that follow each other, and each that
 * is not intact by itself, with what is the matter.
 */
export function tagRanges(tags: readonly PaperTag[]): string[] {
  const intact = tags.filter(({ condition }) => condition === 'intact').map(({ tag }) => tag);
  const others = tags.filter(({ condition }) => condition !== 'intact');
  const runs = intact.sort(compareCodePoints).reduce<Run[]>(withTag, []);
  return [
    ...runs.map(({ head, from, to }) => (from === to ? `${head}${from}` : `${head}${from} to ${to}`)),
    ...others.map(({ tag, condition }) => `${tag} (${CONDITIONS[condition]})`),
  ];
}

/** Lengthens the last run by a tag that follows it, or begins a new one. */
function withTag(runs: Run[], tag: string): Run[] {
  const [, head = tag, number = ''] = NUMBERED.exec(tag) ?? [];
  const last = runs.at(-1);
  if (last && last.head === head && follows(last.to, number)) runs[runs.length - 1] = { ...last, to: number };
  else runs.push({ head, from: number, to: number });
  return runs;
}

/** The next number in the same number of digits; a number too long for that is none. */
function follows(before: string, number: string): boolean {
  return number.length === before.length && BigInt(number) - BigInt(before) === 1n;
}
