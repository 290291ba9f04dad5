/** A finished paper that is a list: what it is, tables of words, sentences, places to sign. One layout draws them all. */
import { longDate } from '#lib/date/date.ts';
import type { SheetHead } from '#lib/settlement/model.ts';
import { associationOf, CAUTION } from '#lib/settlement/parties.ts';
import { sheetHeadOf, sheetSaleOf } from '#lib/settlement/sheet.ts';
import type { PaperContext, PaperGround } from './facts.ts';

/** What a column holds, which decides its width and to which side it is set. `blank` is written in by hand. */
export type ColumnKind =
  | 'lot'
  | 'number'
  | 'goods'
  | 'quantity'
  | 'price'
  | 'money'
  | 'figure'
  | 'words'
  | 'date'
  | 'tick'
  | 'blank';

export interface ListCell {
  readonly words: string;
  /** Small lines under the words. */
  readonly fine: readonly string[];
  /** True in a row that sums up the rows above it. */
  readonly strong?: boolean;
}

export interface ListTable {
  readonly title: string;
  readonly columns: readonly { readonly kind: ColumnKind; readonly words: string }[];
  readonly rows: readonly (readonly ListCell[])[];
  /** Small lines under each row in the full width, such as a lot's export tags; left out where no row has any. */
  readonly below?: readonly (readonly string[])[];
  /** Stands in the place of the rows where there are none. */
  readonly none: string;
  /** How much it is in all, or empty. */
  readonly sum: string;
  /** The sum's own amount, which stands under the last column. */
  readonly sumAmount?: string;
}

interface ListSentences {
  readonly title: string;
  readonly sentences: readonly string[];
}

export interface ListPaper {
  readonly paper: 'list';
  readonly title: string;
  readonly issuedOn: string;
  readonly issuedWords: string;
  readonly head: SheetHead;
  /** Set on a paper that was issued, and not drawn of what is known just now. */
  readonly issued?: true;
  readonly association: { readonly name: string; readonly address: readonly string[] };
  readonly sale: { readonly name: string; readonly words: string };
  /** The number to sort by, in a frame: `Seller` 12. */
  readonly number: { readonly label: string; readonly words: string } | null;
  readonly parties: readonly ListSentences[];
  /** What it comes to, large beside the parties: `To pay` 1,406.35 USD. */
  readonly result?: { readonly label: string; readonly words: string };
  readonly opening: readonly string[];
  readonly tables: readonly ListTable[];
  readonly closing: readonly ListSentences[];
  /** The words under each line to sign on, at the end or, on a sheet that is handed in, at the top. */
  readonly signatures: readonly string[];
  readonly signedAtTop: boolean;
  readonly remarks: readonly string[];
  readonly caution: string;
}

/** One column: what it holds, its heading, and its cell of a row. Text alone is a cell without small lines. */
export type Column<T> = readonly [kind: ColumnKind, words: string, cellOf: (row: T) => string | ListCell];

type Rest<T> = Partial<Omit<ListTable, 'columns' | 'rows' | 'below'>> & {
  readonly belowOf?: (row: T) => readonly string[];
};

/** A table with a row for each item; what it does not name is empty. */
export function tableOf<T>(
  items: readonly T[],
  columns: readonly Column<T>[],
  { title = '', none = '', sum = '', sumAmount, belowOf }: Rest<T> = {},
): ListTable {
  const rows = items.map((item) => columns.map(([, , cellOf]) => cellOf(item)));
  return {
    title,
    columns: columns.map(([kind, words]) => ({ kind, words })),
    rows: rows.map((row) => row.map((one) => (typeof one === 'string' ? cell(one) : one))),
    ...(belowOf ? { below: items.map((item) => belowOf(item).filter((line) => line !== '')) } : {}),
    none,
    sum,
    ...(sumAmount === undefined ? {} : { sumAmount }),
  };
}

type Own = Pick<ListPaper, 'title' | 'tables'> & Partial<Omit<ListPaper, 'paper'>>;

/** The paper of a sale with its heading; what it does not name is empty. */
export function listPaper({ sale, ...ground }: PaperContext, own: Own): ListPaper {
  const { name, words } = sheetSaleOf(sale);
  return paperAbout(ground, { sale: { name, words }, ...own });
}

/** The same of what is no single sale, such as a year: its name and words stand where a sale's would. */
export function paperAbout(
  { association, issuedOn, head }: PaperGround,
  own: Own & Pick<ListPaper, 'sale'>,
): ListPaper {
  return {
    paper: 'list',
    issuedOn,
    issuedWords: `As of ${longDate(issuedOn)}, log line ${head.seq}`,
    head: sheetHeadOf(head),
    association: associationOf(association),
    number: null,
    parties: [],
    opening: [],
    closing: [],
    signatures: [],
    signedAtTop: false,
    remarks: [],
    caution: '',
    ...own,
  };
}

/** For papers of which an agency may ask the county: a section is a word of the association and no county. */
export const NO_COUNTY = 'County: not recorded. Write it in if your agency asks.';

/** For the papers on which somebody might look for advice. */
export const NO_ADVICE = `Nothing on this paper is advice of law. ${CAUTION}`;

export function cell(words: string, ...fine: readonly string[]): ListCell {
  return { words, fine: fine.filter((line) => line !== '') };
}

/** A cell of a row that sums up the rows above it. */
export function strongCell(words: string): ListCell {
  return { words, fine: [], strong: true };
}

/** A place to write in by hand. */
export const BLANK: ListCell = { words: '', fine: [] };
