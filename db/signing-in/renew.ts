/** Another passphrase for somebody who is signed in, and who shows the old one first: a device may be left lying about. */
import { accept, type Result, refuse } from '#lib/result.ts';
import { decidePassphrase, hashPassphrase } from './passphrase.ts';
import { type Place, whoShows } from './sign-in.ts';

export interface Renewal {
  readonly name: string;
  readonly old: string;
  readonly passphrase: string;
  /** The random key of the entry, of which the salt is made. */
  readonly key: string;
}

/**
 * The hash for the book, once the old passphrase was the right one.
 * @returns a refusal with the field `old` or `passphrase`; wrong tries slow this name down as those of signing in.
 */
export async function decideRenewal(place: Place, { name, old, passphrase, key }: Renewal): Promise<Result<string>> {
  const decided = decidePassphrase(passphrase);
  if (!decided.ok) return decided;
  const shown = await whoShows(place, name, old);
  if (!shown.ok && shown.code === 'not_allowed') {
    return refuse('not_allowed', 'This is not your passphrase. Try again, or ask the office for another.', 'old');
  }
  if (!shown.ok) return { ...shown, field: 'old' };
  if (old === passphrase) return refuse('already', 'This is the passphrase you have: choose another.', 'passphrase');
  return accept(await hashPassphrase(passphrase, key));
}
