/** What is wrong with an entry, in plain words, where its schema says no more than what fits. */
import type { z } from 'zod';

/** Gives a sentence for every kind of issue that zod finds; a message written in a schema goes before it. */
export function plainWords(issue: z.core.$ZodRawIssue): string {
  switch (issue.code) {
    case 'invalid_value':
      return `Choose one of these: ${issue.values.join(', ')}.`;
    case 'unrecognized_keys':
      return `Leave out ${issue.keys.join(', ')}: this entry has no such field.`;
    case 'invalid_type':
      return issue.input === undefined ? 'Fill this in: it is missing.' : `Enter this as ${kindOf(issue.expected)}.`;
    case 'too_big':
      return `Enter at most ${issue.maximum}${unitOf(issue.origin)}.`;
    case 'too_small':
      return `Enter at least ${issue.minimum}${unitOf(issue.origin)}.`;
    default:
      return 'Check what was entered here.';
  }
}

const KINDS: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'yes or no',
  array: 'a list',
  object: 'named fields',
  record: 'named fields',
};

function kindOf(expected: string): string {
  return KINDS[expected] ?? 'something else';
}

function unitOf(origin: string): string {
  if (origin === 'string') return ' characters';
  return origin === 'array' ? ' of them' : '';
}
