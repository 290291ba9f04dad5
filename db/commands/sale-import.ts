import { accept } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { checkAgainstBook } from '../exchange/against-book.ts';
import { checkFolder } from '../exchange/check-folder.ts';
import { folderInput, folderOfInput } from '../exchange/command-input.ts';
import { refusalOfProblems } from '../exchange/problem.ts';
import { saveFolder } from '../exchange/save-folder.ts';

/**
 * Takes a whole sale into the book from the rows of an exchange folder. Prices off the step, buyers who were not
 * cleared and licences that ran out are no faults here: what happened, happened.
 */
export const saleImport = defineCommand({
  name: 'sale.import',
  summary: 'Imports a whole sale from the rows of an exchange folder, all or nothing.',
  logLabel: 'Sale imported',
  stations: ['office'],
  input: folderInput,
  run(context, input) {
    const raw = folderOfInput(input);
    const folder = checkFolder(raw);
    const refusal = refusalOfProblems([...folder.problems, ...checkAgainstBook(context.book, raw, folder)]);
    if (refusal !== null) return refusal;
    if (folder.sale === undefined) throw new TypeError('a sale without problems was not read');
    return accept({ ...saveFolder(context, folder.sale, folder) });
  },
});
