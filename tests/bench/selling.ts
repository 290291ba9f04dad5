/** A file of a sale that is being sold, with no lot called yet. */
import { submit } from '#db/book/door.ts';
import { AT, bookOf, newFile, sizeOf } from './big-book.ts';

export function sellingFile(lots: number): string {
  const file = newFile();
  const book = bookOf(sizeOf(lots, 0), file);
  const input = { saleId: 1, stage: 'selling', reason: '' } as const;
  const answer = submit(book, {
    command: 'sale.stage',
    input,
    worker: 'bench',
    station: 'office',
    at: AT,
    key: 'open',
  });
  if (!answer.ok) throw new Error(answer.message);
  book.close();
  return file;
}
