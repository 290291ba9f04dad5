/** The server's side of the book, which the build bundles for `serve.mjs`: entries and hosts need no framework. */
import 'server-only';
import { copyFolders } from '#app/backups/program.ts';
import { shutToOthers } from '#db/book/private-files.ts';
import { knowsHost } from './connection.ts';
import { sharesNow } from './guard/shares.ts';
import { noteHttpAtHttps, noteWrongName } from './guard/turned-away.ts';
import { hallAddresses, hallRemembered, isHallOpen, keysNow, triedWords, welcomeWords } from './hall.ts';
import { hearLead } from './lead.ts';
import { bookPath, openServerBook, whyNotServed } from './open-book.ts';
import { lookedCookie } from './seen-head.ts';
import { serverState, signsOfBook, troubleNow } from './state.ts';

export const book = {
  /** Entries bring the code of all commands with them, which no first page waits for. */
  answerEntry: async (command: string, request: Request): Promise<Response> =>
    (await import('./answer-entry.ts')).answerEntry(command, request),
  knowsHost,
  noteWrongName,
  noteHttpAtHttps,
  hear: hearLead,
  looked: lookedCookie,
  signs: signsOfBook,
  whyNotServed,
  shares: sharesNow,
  keys: (hall: boolean, now?: Date) => keysNow(bookPath(), hall, now),
  welcome: welcomeWords,
  tried: triedWords,
  hallRemembered: (now?: boolean) => hallRemembered(bookPath(), now),
  /** The address that a browser under a wrong name is told; empty while nothing but this machine is served. */
  bestAddress: (): string => (isHallOpen() ? (hallAddresses(serverState().book)[0]?.open ?? '') : ''),
  /** Looks whether others on this machine could read the files of the book, and says so. */
  shut(file: string): void {
    for (const words of shutToOthers(file, copyFolders(file))) console.error(words);
  },
  /** Opens the book before anybody asks. Where that fails, it is printed; the pages say it too, and try again. */
  open(integrity: string | undefined): void {
    try {
      openServerBook(integrity);
      const trouble = troubleNow();
      if (trouble) console.error([trouble.title, trouble.happened, trouble.toDo].join('\n'));
    } catch (fault) {
      console.error(fault);
    }
  },
};
