import { answerEntry } from '#app/answer-entry.ts';
import { bookOrNone } from '#app/book.ts';
import { house } from '#app/house.ts';
import { responseOf } from '#app/reply.ts';
import { letterOf } from '#app/wire.ts';

interface Params {
  readonly params: Promise<{ command: string }>;
}

/**
 * The way to the door through the framework, which loads it. The way costs more than the entry: from the first one on
 * the gate goes to the door by itself.
 */
export async function POST(request: Request, { params }: Params): Promise<Response> {
  await bookOrNone();
  house().door = answerEntry;
  const { command } = await params;
  return responseOf(await answerEntry(command, letterOf(request)));
}
