import 'server-only';
import type { CommandName, ValueOf } from '#db/commands/index.ts';
import { type Answer, type Envelope, type EnvelopeOf, submitUntyped } from '#db/door.ts';
import type { Book } from '#db/open.ts';
import { dropEnded } from '#db/signing-in/sessions.ts';
import { type Trouble, troubleOfWriting } from '#db/trouble.ts';
import { copySoon } from './backups/schedule.ts';
import { house, ring } from './house.ts';
import { withSignInsNow } from './sign-ins.ts';

/** What the office says of a worker by which devices are signed out. Whoever renews their own stays on one of them. */
const ENDS_SIGN_INS: ReadonlySet<string> = new Set<CommandName>(['worker.amend', 'worker.passphrase']);

const BACKED_UP_AFTER: CommandName = 'sale.stage';

/** The answer to an entry that was not taken because nothing is written: it stays in the browser and comes again. */
export interface WritingStopped {
  readonly stopped: Trouble;
}

/**
 * Gives a command to the book and rings the bell when it was accepted. Nothing is taken once the disk has failed, and
 * from then on until a person has said that it is mended: after a full disk a smaller entry might go in where a larger
 * one did not, and nobody could say what is missing.
 */
export function give<N extends CommandName>(book: Book, envelope: EnvelopeOf<N>): Answer<ValueOf<N>> | WritingStopped {
  return giveUntyped(book, envelope) as Answer<ValueOf<N>> | WritingStopped;
}

/** The same for a request, of which only the door knows what it holds. */
export function giveUntyped(book: Book, envelope: Envelope): Answer | WritingStopped {
  const here = house();
  if (here.trouble) return { stopped: here.trouble };
  const answer = submitOrStop(book, envelope);
  if ('stopped' in answer || !answer.ok) return answer;
  if (ENDS_SIGN_INS.has(envelope.command)) withSignInsNow(book, (store) => dropEnded({ book, store }));
  ring();
  if (envelope.command === BACKED_UP_AFTER) copySoon();
  return answer;
}

function submitOrStop(book: Book, envelope: Envelope): Answer | WritingStopped {
  const here = house();
  try {
    return submitUntyped(book, envelope);
  } catch (fault) {
    const trouble = troubleOfWriting(fault);
    if (!trouble) throw fault;
    here.trouble = trouble;
    ring();
    return { stopped: trouble };
  }
}
