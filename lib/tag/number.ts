/**
 * Export tags of goods under CITES Appendix II: `US-CITES WY BOB 2025 000101` of a State or Tribe, or the federal
 * replacement `US-CITES FWS-REPL 001234`. What a tag shows is taken from memory of 50 CFR 23.69(c); the year of take
 * stands on many tags, not on all.
 */
import { accept, type Result, refuse } from '#lib/result/result.ts';

export interface Tag {
  /** The one spelling the book keeps. */
  readonly canonical: string;
  /** The abbreviation of the State or Tribe, such as WY; null on a federal replacement tag. */
  readonly state: string | null;
  readonly species: string | null;
  readonly year: string | null;
  /** Kept with its leading zeros. */
  readonly serial: string;
  readonly replacement: boolean;
}

const EXAMPLE = 'US-CITES WY BOB 2025 000101';
const SEPARATORS = /[\s\-\u2010-\u2015\u2212./\\_:]+/;
const SERIAL = /^(?=.*\d)[A-Z0-9]{3,12}$/;
const YEAR = /^(19|20)\d\d$/;

/** Reads one export tag, whatever its spacing, hyphens, dots, slashes or case. */
export function parseTag(text: string): Result<Tag> {
  const words = wordsOf(text);
  if (words.length === 0) return refuse('missing', `Enter the number on the tag, such as ${EXAMPLE}.`);
  const rest = withoutHeading(words);
  if (rest === null) return refuse('malformed', `Begin with US-CITES, as on the tag: ${EXAMPLE}.`);
  const replacement =
    rest[0] === 'FWS' && rest[1] === 'REPL' ? rest.slice(2) : rest[0] === 'FWSREPL' ? rest.slice(1) : null;
  return replacement === null ? issuedTag(rest) : replacementTag(replacement);
}

function wordsOf(text: string): string[] {
  return text
    .toUpperCase()
    .split(SEPARATORS)
    .filter((word) => word !== '');
}

function withoutHeading(words: readonly string[]): string[] | null {
  if (words[0] === 'USCITES') return words.slice(1);
  return words[0] === 'US' && words[1] === 'CITES' ? words.slice(2) : null;
}

function replacementTag(words: readonly string[]): Result<Tag> {
  const [serial, ...more] = words;
  if (serial === undefined || more.length > 0 || !SERIAL.test(serial)) return badSerial('US-CITES FWS-REPL 001234');
  const canonical = `US-CITES FWS-REPL ${serial}`;
  return accept({ canonical, state: null, species: null, year: null, serial, replacement: true });
}

function issuedTag(words: readonly string[]): Result<Tag> {
  const [state, species, ...rest] = words;
  if (state === undefined || !/^[A-Z]{2,8}$/.test(state)) {
    return refuse('malformed', `Enter the letters of the State or Tribe behind US-CITES: ${EXAMPLE}.`);
  }
  if (species === undefined || !/^[A-Z]{2,6}$/.test(species)) {
    return refuse('malformed', `Enter the species code behind the State or Tribe: ${EXAMPLE}.`);
  }
  const [first, second, ...more] = rest;
  const year = second === undefined ? null : (first ?? null);
  const serial = second ?? first;
  if (year !== null && !YEAR.test(year)) {
    return refuse('malformed', `Enter one tag with one number; ${year} is not a year of take: ${EXAMPLE}.`);
  }
  if (serial === undefined || more.length > 0 || !SERIAL.test(serial)) return badSerial(EXAMPLE);
  const canonical = ['US-CITES', state, species, ...(year === null ? [] : [year]), serial].join(' ');
  return accept({ canonical, state, species, year, serial, replacement: false });
}

function badSerial(example: string): Result<never> {
  const message = `Enter the tag's own number, 3 to 12 digits or letters with a digit among them: ${example}.`;
  return refuse('malformed', message);
}
