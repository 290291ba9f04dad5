/** A clerk who never stops: gives one command after the other, and says each number once it was answered. */
import { submitUntyped } from '#db/book/door.ts';
import { openBook } from '#db/book/open.ts';
import { actNo } from './acts.ts';
import { onOrders, say } from './orders.ts';

interface Orders {
  readonly file: string;
  /** The first act to give, which may have been given before. */
  readonly next: number;
}

onOrders<Orders>(({ file, next }) => {
  const book = openBook(file);
  for (let number = next; ; number += 1) {
    const answer = submitUntyped(book, actNo(number));
    if (!answer.ok) throw new Error(`act ${number}: ${answer.message}`);
    say(`${number} ${answer.line} ${answer.repeated}`);
  }
});
