import { accept, type Result, refuse } from '#lib/result.ts';
import { folderTexts, writeFolder } from '../exchange/export-sale.ts';
import { openBook } from '../open.ts';
import type { SaleRow } from '../queries/find.ts';
import { allSales } from '../queries/sales.ts';
import type { Subcommand } from './io.ts';

export const exportCommand: Subcommand = {
  name: 'export',
  takes: '<folder>',
  takesSale: true,
  says: 'writes a sale as an exchange folder, with what follows from it',
  run({ book: file, path, sale: named }, voice) {
    const book = openBook(file);
    try {
      // One read over all tables, so that entries made meanwhile are in the whole folder or in none of it.
      book.sqlite.exec('BEGIN');
      const sale = chooseSale(allSales(book), named);
      if (!sale.ok) {
        voice.warn(sale.message);
        // Several sales and none named is a word that is missing from the call, not something wrong with the book.
        return sale.code === 'missing' ? 2 : 1;
      }
      const texts = folderTexts(book, sale.value.id);
      writeFolder(path, texts);
      voice.say(`Exported ${sale.value.name}: ${texts.size} files in ${path}.`);
      return 0;
    } finally {
      book.close();
    }
  },
};

/** The only sale, or the one that is named by its id or its name; a name that several share is not enough. */
function chooseSale(sales: readonly SaleRow[], named: string | undefined): Result<SaleRow> {
  const found = named === undefined ? sales : sales.filter(({ id, name }) => String(id) === named || name === named);
  const [only, ...others] = found;
  if (only !== undefined && others.length === 0) return accept(only);
  if (sales.length === 0) return refuse('unknown', 'There is no sale in this book: import one first.');
  const list = sales.map(({ id, name, heldOn }) => `  ${id}  ${heldOn}  ${name}`).join('\n');
  const why = only === undefined ? `There is no sale ${named} in this book.` : 'There are several sales.';
  return refuse(named === undefined ? 'missing' : 'unknown', `${why} Say which with --sale and its id:\n${list}`);
}
