import type { BlockLot, BlockView } from '#db/outcome/block-view.ts';
import type { CalledLot } from '#db/outcome/called.ts';
import { showMoney } from '#lib/money/money.ts';
import { type OutcomeQuestion as Asked, type OutcomeContext, QUESTIONS } from '#lib/outcome/decide-outcome.ts';
import { OUTCOME_WORDS } from '#lib/outcome/words.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';
import type { Kind } from './draft.ts';

/** What a refusal asks; undefined where it says no. */
export function questionIn(refusal: Refusal | undefined): Asked | undefined {
  return QUESTIONS.find((one) => refusal?.code === 'needs_answer' && one === refusal.field);
}

interface QuestionProps {
  readonly message: string;
  /** True where a no-sale is an answer as well. */
  readonly passes?: boolean;
  readonly yes?: string;
  readonly no?: string;
}

const YES = 'yes, save it.';
const NO = 'no, go back to what was typed.';

/** Asked once, in place: Enter says yes, Escape goes back to what was typed. */
export function Question({ message, passes = false, yes = YES, no = NO }: QuestionProps) {
  return (
    <div className="notice" data-kind="wait" role="alert">
      <p>
        <strong>{message}</strong>
      </p>
      <p>
        <kbd>Enter</kbd> {yes} <kbd>Esc</kbd> {no}
        {passes && (
          <>
            {' '}
            <kbd>*</kbd> no-sale.
          </>
        )}
      </p>
    </div>
  );
}

interface RefusedProps {
  readonly refusal: Refusal | undefined;
  readonly question: string | undefined;
  /** The fields that are drawn and say themselves what is wrong with them. */
  readonly drawn: readonly (string | undefined)[];
}

/** What a refusal asks, or says of something else than the fields that are drawn. */
export function Refused({ refusal, question, drawn }: RefusedProps) {
  if (!refusal) return null;
  if (question) return <Question message={refusal.message} passes={question === 'below_minimum'} />;
  return drawn.includes(refusal.field) ? null : (
    <p className="field-error" role="alert">
      {refusal.message}
    </p>
  );
}

/** The sentence of a refusal, at the field that it is about. */
export function errorAt(refusal: Refusal | undefined, field: string): string | undefined {
  return refusal?.field === field ? refusal.message : undefined;
}

/** What was typed where a buyer number belongs. */
export const NO_NUMBER = refuse('malformed', 'Enter the buyer number in digits, as on the card.', 'buyerNo');

/** In the place of a buyer number: the seller's own bid was the last, and nobody pays. */
export const SELLER_BUYS = '0';

/** What is taken down of a lot for which somebody typed a price and, for the buyer, this. */
export function kindTyped(kind: Kind, buyer: string): Kind {
  return kind === 'sold' && buyer === SELLER_BUYS ? 'bought_back' : kind;
}

/** The buyer's box of an outcome, as it was typed. */
export function buyerTyped(kind: CalledLot['kind'], buyerNo: unknown): string {
  return kind === 'bought_back' ? SELLER_BUYS : String(buyerNo ?? '');
}

/** A buyer number as it is typed; null where it is none. */
export function readBuyerNo(typed: string): number | null {
  return /^[1-9]\d{0,4}$/.test(typed) ? Number.parseInt(typed, 10) : null;
}

/** What the questions before saving need to know of a buyer; null where nobody has this number. */
export function buyerOf(view: BlockView, lot: BlockLot, buyerNo: number | null): OutcomeContext['buyer'] {
  const found = view.buyers.find((one) => one.buyerNo === buyerNo);
  if (!found || buyerNo === null) return null;
  return { buyerNo, cleared: found.cleared, sellsThisLot: lot.sellersAsBuyers.includes(buyerNo) };
}

/** How a lot came out, in words: `sold at 13.25 to buyer 12`, `no-sale`, `bought back at 13.25`. */
export function outcomeWords({
  kind,
  priceCents,
  buyerNo,
}: Pick<CalledLot, 'kind' | 'priceCents' | 'buyerNo'>): string {
  if (priceCents === null) return OUTCOME_WORDS[kind];
  const at = `${OUTCOME_WORDS[kind === 'unpaid' ? 'sold' : kind]} at ${showMoney(priceCents)}`;
  if (kind === 'bought_back') return at;
  return `${at} to buyer ${buyerNo}${kind === 'unpaid' ? `, ${OUTCOME_WORDS.unpaid}` : ''}`;
}
