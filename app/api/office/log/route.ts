import { readQueryParams } from '#app/(stations)/office/log/query-params.ts';
import { staffRoute } from '#app/request/caller.ts';
import { noteLooks } from '#app/request/looks.ts';
import { CSV_TYPE, fileResponse } from '#app/server/responses.ts';
import type { Book } from '#db/book/open.ts';
import { csvText } from '#db/exchange/csv.ts';
import { saleOfAddress } from '#db/sale/queries.ts';
import { type LogAsked, logPart } from '#db/worker/log-view.ts';
import { withoutFormula } from '#lib/result/text.ts';

const LINES_A_PART = 500;

/** The columns behind the line. */
const TEXTS = ['at', 'worker', 'station', 'command', 'words', 'input', 'hash'] as const;

/** The lines that the address asks for, newest first, as RFC 4180 CSV. */
export const GET = staffRoute(['office'], async ({ book, word }) => {
  const asked = readQueryParams(word, saleOfAddress(book, word('sale'))?.id);
  if (asked.personId !== undefined) await noteLooks(book, 'log', [asked.personId]);
  return fileResponse(csvOf(book, asked), { name: 'log.csv', type: CSV_TYPE });
});

/** Part by part, so that the file of a hundred thousand lines makes nobody at the stations wait. */
function csvOf(book: Book, asked: LogAsked): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  let before = asked.before;
  let head: readonly (readonly string[])[] = [['line', ...TEXTS]];
  return new ReadableStream({
    pull(stream) {
      const lines = logPart(book, { ...asked, before }, LINES_A_PART);
      const [first, ...rows] = [...head, ...lines.map(cellsOf)];
      if (first) stream.enqueue(encoder.encode(csvText(first, rows)));
      head = [];
      before = lines.at(-1)?.line;
      if (lines.length < LINES_A_PART) stream.close();
    },
  });
}

function cellsOf({ line, ...row }: ReturnType<typeof logPart>[number]): string[] {
  return [String(line), ...TEXTS.map((column) => withoutFormula(row[column]))];
}
