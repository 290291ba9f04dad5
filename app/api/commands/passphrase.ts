import 'server-only';
import { decidePassphrase, hashPassphrase } from '#db/signing-in/passphrase.ts';
import { accept, type Result, refuse } from '#lib/result.ts';

const WITH_PASSPHRASE: readonly string[] = ['worker.add', 'worker.passphrase'];

/** Puts the hash in the place of a passphrase, before the door: neither a command nor the log ever sees the words. */
export async function withHashedPassphrase(command: string, input: unknown, key: string): Promise<Result<unknown>> {
  if (!WITH_PASSPHRASE.includes(command)) return accept(input);
  if (typeof input !== 'object' || input === null || !('passphrase' in input) || 'passphraseHash' in input) {
    return refuse('missing', 'Enter a passphrase.', 'passphrase');
  }
  const { passphrase, ...rest } = input;
  if (typeof passphrase !== 'string') return refuse('malformed', 'Enter the passphrase as text.', 'passphrase');
  const decided = decidePassphrase(passphrase);
  return decided.ok ? accept({ ...rest, passphraseHash: await hashPassphrase(passphrase, key) }) : decided;
}
