import 'server-only';
import type { Station } from '#db/command.ts';
import type { CommandName } from '#db/commands/index.ts';
import { decidePassphrase, hashPassphrase } from '#db/signing-in/passphrase.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

const WITH_PASSPHRASE: readonly string[] = ['worker.add', 'worker.passphrase'] satisfies CommandName[];
const OWN_PASSPHRASE: CommandName = 'worker.renew';

interface Entry {
  readonly command: string;
  readonly station: Station;
  readonly input: unknown;
  readonly key: string;
}

/** Puts the hash in the place of a passphrase, before the door: neither a command nor the log ever sees the words. */
export async function withHashedPassphrase({ command, station, input, key }: Entry): Promise<Result<unknown>> {
  // A device left lying about must not be enough: the old passphrase is asked for elsewhere, and nobody comes past it.
  if (command === OWN_PASSPHRASE) {
    return refuse('missing', 'Change your own passphrase under your own name, with the old one.', 'old');
  }
  // Hashing is dear: it is done for the office only, and the door tells the others.
  if (!WITH_PASSPHRASE.includes(command) || station !== 'office') return accept(input);
  if (typeof input !== 'object' || input === null || !('passphrase' in input) || 'passphraseHash' in input) {
    return refuse('missing', 'Enter a passphrase.', 'passphrase');
  }
  const { passphrase, ...rest } = input;
  if (typeof passphrase !== 'string') return refuse('malformed', 'Enter the passphrase as text.', 'passphrase');
  const decided = decidePassphrase(passphrase);
  return decided.ok ? accept({ ...rest, passphraseHash: await hashPassphrase(passphrase, key) }) : decided;
}
