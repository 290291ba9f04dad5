/** The worker of a demo book. A plainly marked passphrase in the open: no book of anybody's is ever made with it. */
import { STATIONS } from '#db/command.ts';
import { submit } from '#db/door.ts';
import type { Book } from '#db/open.ts';
import { hashPassphrase } from '#db/signing-in/passphrase.ts';

export const DEMO_WORKER = { name: 'Demo', passphrase: 'demo only, not a secret' } as const;

/** Enters the worker of the demo, with every station, so that the demo's doors are closed as those of a real book. */
export async function addDemoWorker(book: Book): Promise<void> {
  const key = 'demo-worker';
  const { name, passphrase } = DEMO_WORKER;
  const input = { name, passphraseHash: await hashPassphrase(passphrase, key), stations: [...STATIONS] };
  const at = book.sqlite.prepare<[], string>('SELECT max(at) FROM log').pluck().get() ?? '2026-01-01T00:00:00.000Z';
  const answer = submit(book, { command: 'worker.add', input, worker: 'the demo', station: 'office', at, key });
  if (!answer.ok) throw new Error(answer.message);
}
