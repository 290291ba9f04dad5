/**
 * A finished report: lines of facts and tables in which every cell is the text that is printed. The page, the PDF and
 * the CSV place it; none of them adds anything up. It is plain JSON, so that it can be kept as it was.
 */
import type { SheetHead } from '#lib/sheet/model.ts';

export const REPORT_KINDS = [
  'check-register',
  'check-stub',
  'correction',
  'closing-report',
  'balance',
  'kept',
  'agency-return',
  'held-over',
] as const;
export type ReportKind = (typeof REPORT_KINDS)[number];

export interface ReportColumn {
  readonly label: string;
  /** Figures stand to the right, so that their points are under each other. */
  readonly align: 'left' | 'right';
  /** Its part of the table's width, beside the other columns' parts. */
  readonly width: number;
}

export interface ReportTable {
  readonly title: string;
  readonly columns: readonly ReportColumn[];
  readonly rows: readonly (readonly string[])[];
  /** The last line, with a cell for each column, or null. */
  readonly sum: readonly string[] | null;
  /** What is said where there are no rows. */
  readonly none: string;
}

export interface ReportFact {
  readonly label: string;
  readonly words: string;
}

export interface Report {
  readonly paper: 'report';
  readonly version: 1;
  readonly kind: ReportKind;
  readonly title: string;
  /** What stands large beside the title, such as `Check 1001`; empty where there is nothing. */
  readonly mark: string;
  /** ISO 8601 date. */
  readonly issuedOn: string;
  readonly issuedWords: string;
  readonly head: SheetHead;
  readonly association: { readonly name: string; readonly address: readonly string[] };
  readonly sale: { readonly name: string; readonly words: string; readonly currency: string };
  readonly facts: readonly ReportFact[];
  readonly tables: readonly ReportTable[];
  readonly remarks: readonly string[];
  readonly caution: string;
  /** True for a paper lying on its side, where the columns are many. */
  readonly wide: boolean;
}
