/** The first laptop as a second one sees it: serves the lines of its book, and takes entries as the server does. */
import { createServer } from 'node:http';
import { submitUntyped } from '#db/book/door.ts';
import { openBook } from '#db/book/open.ts';
import { mayFollow } from '#db/follow/laptops.ts';
import { linesBehind } from '#db/follow/lines.ts';
import { openStore } from '#db/sign-in/store.ts';
import { actNo } from './acts.ts';
import { onOrders, say } from './orders.ts';

onOrders<{ readonly file: string }>(({ file }) => {
  const signIns = { book: openBook(file), store: openStore(file) };
  const { book, store } = signIns;
  const server = createServer((request, response) => {
    const url = new URL(request.url ?? '/', 'http://first');
    const number = Number.parseInt(url.searchParams.get('act') ?? '', 10);
    if (number > 0) {
      const answer = submitUntyped(book, actNo(number));
      // Every seventh answer is lost on its way.
      if (number % 7 === 0) response.destroy();
      else response.end(JSON.stringify(answer));
      return;
    }
    const key = request.headers.authorization?.replace('Bearer ', '') ?? '';
    response.statusCode = mayFollow(store, key, Date.now()) ? 200 : 401;
    const after = Number.parseInt(url.searchParams.get('after') ?? '0', 10);
    response.end(JSON.stringify(linesBehind(signIns, after)));
  });
  server.listen(0, '127.0.0.1', () => {
    const place = server.address();
    say(String(typeof place === 'object' ? place?.port : ''));
  });
});
