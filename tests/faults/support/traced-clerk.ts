/** A clerk at a disk that fails: gives a number of acts, says each answer, and stops at the first fault with its code. */
import { writeSync } from 'node:fs';
import { submitUntyped } from '#db/book/door.ts';
import { openBook } from '#db/book/open.ts';
import { troubleOfOpening, troubleOfWriting } from '#db/book/trouble.ts';
import { actNo } from './acts.ts';

const [file = '', from = '1', many = '1'] = process.argv.slice(2);
const say = (text: string) => void writeSync(1, `${text}\n`);

try {
  const book = openBook(file);
  const first = Number.parseInt(from, 10);
  for (let number = first; number < first + Number.parseInt(many, 10); number += 1) {
    const answer = submitUntyped(book, actNo(number));
    say(answer.ok ? `${number} ${answer.line} ${answer.repeated}` : `refused ${answer.message}`);
  }
  book.close();
  say('closed');
} catch (fault) {
  const trouble = troubleOfWriting(fault) ?? troubleOfOpening(fault);
  say(`fault ${trouble?.kind ?? 'unknown'} ${fault instanceof Error ? fault.message : String(fault)}`);
  process.exit(3);
}
