/** The acts of a server and of a command line that are seldom and long, to be killed in the middle. */
import { type Envelope, submitUntyped } from '#db/book/door.ts';
import { keepCopy } from '#db/book/keep-copy.ts';
import { openBook } from '#db/book/open.ts';
import { restoreBook } from '#db/book/restore.ts';
import { onOrders, say } from './orders.ts';

export interface Orders {
  readonly copy?: { readonly file: string; readonly folder: string; readonly at: number };
  readonly restore?: { readonly backup: string; readonly target: string };
  /** Given in turn, each under its own key. */
  readonly acts?: { readonly file: string; readonly envelopes: readonly Envelope[] };
}

onOrders<Orders>(({ copy, restore, acts }) => {
  if (copy) void copies(copy);
  if (restore) {
    void restoreBook(restore.backup, restore.target, new Date()).then((done) =>
      say(done.ok ? 'restored' : done.message),
    );
  }
  if (!acts) return;
  const book = openBook(acts.file);
  for (const envelope of acts.envelopes) {
    const answer = submitUntyped(book, envelope);
    say(`${envelope.key} ${answer.ok}`);
  }
});

/** One dated copy after another, a minute apart, until somebody ends it. */
async function copies({ file, folder, at }: NonNullable<Orders['copy']>): Promise<void> {
  for (let minute = 0; ; minute += 1) {
    const kept = await keepCopy(file, folder, new Date(at + minute * 60_000));
    say(kept.ok ? kept.file : kept.message);
  }
}
