/** What every finished paper says of itself, whatever it is; `kinds.ts` knows how each kind is drawn. */
export interface PaperHead {
  /** The kind of paper, such as `settlement-sheet`. */
  readonly paper: string;
  readonly title: string;
  /** ISO 8601 date. */
  readonly issuedOn: string;
  readonly association: { readonly name: string };
  readonly sale: { readonly name: string };
  readonly remarks: readonly string[];
}
