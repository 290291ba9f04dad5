/** The part of an export tag that all tags of a lot share, so that a volunteer types only the numbers. */
import { type Refusal, refuse } from '#lib/result/result.ts';
import { parseTag, type Tag } from './number.ts';

const BARE_START = /^\s*[A-Z]{0,3}\d/i;
/** A number with its year before it, such as `2026 000777`. */
const YEAR_START = /^\s*(?:19|20)\d\d\s+[A-Z]{0,3}\d/i;
const YEAR_END = / (?:19|20)\d\d$/;

/** What a question about the year of a tag names as its field. */
export const TAG_YEAR = 'tagYear';

/** How the export tags of one kind of goods read this season, as far as the book knows. */
export interface SeasonTags {
  /** Where the sale is (ISO 3166-2): its State stands on the tags of what was taken there. */
  readonly region: string;
  readonly tagSpeciesCode: string;
  /** The years that a tag of this season may show; empty where the season's name does not say. */
  readonly years: readonly string[];
  /** The years that this season's tags show so far, by their State; an empty one is a tag without a year. */
  readonly shown: Readonly<Record<string, readonly string[]>>;
}

interface SeasonFacts extends Pick<SeasonTags, 'region' | 'tagSpeciesCode'> {
  readonly season: string;
  /** What stands before the numbers of this season's tags. A tag that came back from an earlier sale is none of them. */
  readonly heads: readonly string[];
}

export function seasonTags({ region, tagSpeciesCode, season, heads }: SeasonFacts): SeasonTags {
  const years = seasonYears(season);
  const shown: Record<string, string[]> = {};
  for (const head of heads) {
    const [, state = '', species = '', year = ''] = head.split(' ');
    if (species !== tagSpeciesCode.toUpperCase()) continue;
    if (year === '' || years.length === 0 || years.includes(year)) shown[state] = [...(shown[state] ?? []), year];
  }
  return { region, tagSpeciesCode, years, shown };
}

/** Both years of `2025-26`. A season named by one year may begin or end in it. Empty for any other name. */
export function seasonYears(season: string): string[] {
  const two = /^\D*((?:19|20)\d\d)\s*[-/\u2013]\s*((?:19|20)?\d\d)\D*$/.exec(season);
  if (two) {
    const first = yearIn(two[1]);
    return String(first + 1).endsWith(two[2] ?? '') ? [String(first), String(first + 1)] : [];
  }
  const one = /^\D*((?:19|20)\d\d)\D*$/.exec(season);
  return one ? [-1, 0, 1].map((by) => String(yearIn(one[1]) + by)) : [];
}

function yearIn(digits = ''): number {
  return Number.parseInt(digits, 10);
}

/**
 * What stands before the number of a tag: the State where the piece was taken, the code of the goods, and the year where
 * all of this season's tags show the same. Where they differ, or there are none yet, no year is made up. Empty where the
 * goods have no code.
 */
export function tagHead(tags: SeasonTags, takenIn = ''): string {
  if (tags.tagSpeciesCode === '') return '';
  const state = stateOf(tags, takenIn);
  const [year = '', ...others] = tags.shown[state] ?? [];
  const head = `US-CITES ${state} ${tags.tagSpeciesCode.toUpperCase()}`;
  return year === '' || others.length > 0 ? head : `${head} ${year}`;
}

/** The list as it was typed, with the head before it where it begins with a number alone, or with a year and a number. */
export function withTagHead(typed: string, head: string): string {
  if (head === '' || !BARE_START.test(typed)) return typed;
  return `${YEAR_START.test(typed) ? head.replace(YEAR_END, '') : head} ${typed.trim()}`;
}

interface TagsAsked {
  readonly season: SeasonTags;
  readonly takenIn: string;
  readonly tags: readonly string[];
}

/** Asks whether the year on a tag is right, where it is not this season's or is missing; null where nothing is asked. */
export function askTagYear({ season, takenIn, tags }: TagsAsked): Refusal | null {
  const shown = (season.shown[stateOf(season, takenIn)] ?? []).filter((year) => year !== '');
  const read = tags.flatMap((text) => {
    const tag = parseTag(text);
    return tag.ok && !tag.value.replacement ? [tag.value] : [];
  });
  const [other, ...others] = read.filter(({ year }) => isOfAnotherSeason(year, season));
  if (other) {
    const wanted = inWords(shown.length > 0 ? shown : season.years);
    return ask(`${named(other, others)} the year ${other.year}, but this season’s tags are from ${wanted}.`);
  }
  const [bare, ...bares] = shown.length > 0 ? read.filter(({ year }) => year === null) : [];
  if (!bare) return null;
  const whole = `${shown.at(-1)} ${bare.serial}`;
  return ask(`${named(bare, bares)} no year, but this season’s tags are from ${inWords(shown)}: type ${whole}.`);
}

function ask(words: string): Refusal {
  return refuse('needs_answer', `${words} Is it as on the tag?`, TAG_YEAR);
}

function isOfAnotherSeason(year: string | null, { years }: SeasonTags): boolean {
  return year !== null && years.length > 0 && !years.includes(year);
}

function named({ canonical }: Tag, others: readonly Tag[]): string {
  return others.length === 0 ? `Tag ${canonical} shows` : `Tag ${canonical} and ${others.length} more show`;
}

function inWords(years: readonly string[]): string {
  return years.length < 2 ? years.join('') : `${years.slice(0, -1).join(', ')} or ${years.at(-1)}`;
}

function stateOf({ region }: SeasonTags, takenIn: string): string {
  const place = takenIn.trim() === '' ? region : takenIn.trim();
  return place.slice(place.indexOf('-') + 1);
}
