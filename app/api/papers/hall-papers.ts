import 'server-only';
import { staffRoute } from '#app/request/caller.ts';
import { today } from '#app/request/page-context.ts';
import { hallAddresses, hallWords, isHallOpen } from '#app/server/hall.ts';
import { bookGround } from '#db/lot/papers.ts';
import { joinCard } from '#lib/paper/join-card.ts';
import { answerPapers } from './answer.ts';

/** The card for the wall, with the address of now: of the office, which prints it anew where the address changes. */
export const joinCardPaper = staffRoute(['office'], ({ book }) => {
  const [best] = isHallOpen() ? hallAddresses(book) : [];
  const facts = best && { ...best, words: hallWords(book.file) };
  const papers = facts ? [joinCard(bookGround(book, today(book)), facts)] : [];
  return answerPapers({ book, papers, name: 'join-card', none: 'Open the hall first: Office, Network.' });
});
