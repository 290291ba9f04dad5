import type { ListPaper } from '#lib/paper/list.ts';
import { oneSpaced } from './pdf.ts';

/** Every word and figure of a list as its paper has it. */
export function textsOf(list: ListPaper): string[] {
  const { title, issuedWords, association, sale, number, parties, opening, tables, closing, signatures, caution } =
    list;
  return [
    ...[title, issuedWords, association.name, ...association.address, sale.name, sale.words, number?.words ?? ''],
    ...[...parties, ...closing].flatMap((one) => [one.title, ...one.sentences]),
    ...[...opening, ...signatures, ...list.remarks, caution, list.head.words],
    ...tables.flatMap((table) => [
      ...[table.title, table.sum, table.sumAmount ?? '', table.rows.length === 0 ? table.none : ''],
      ...(table.rows.length === 0 ? [] : table.columns.map(({ words }) => words)),
      ...table.rows.flat().flatMap(({ words, fine }) => [words, ...fine]),
    ]),
  ].filter((words) => words !== '');
}

/** Every word, in any order: a column that is wrapped beside another tears a sentence apart. */
export function missingFrom(text: string, wanted: readonly string[]): string[] {
  return wanted.flatMap((words) => oneSpaced(words).split(' ')).filter((word) => word !== '' && !text.includes(word));
}
