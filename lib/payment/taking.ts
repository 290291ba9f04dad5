/** Takings: money that came in at a sale and is nobody's purchase, fee or dues. By kind, and when one cannot be recorded. */
import { type Cents, sumOf } from '#lib/money/money.ts';
import { accept, type Result, refuse } from '#lib/result/result.ts';
import type { Taking, TakingKind } from '#lib/sale/facts.ts';

/** Every kind with its word, in the order in which they are listed. Dues are no kind: they make a member, and have their own way. */
export const TAKING_WORDS: Readonly<Record<TakingKind, string>> = {
  raffle: 'Raffle',
  door: 'Door',
  donation: 'Donation',
  food: 'Food',
  other: 'Other',
};

export const TAKING_KINDS = ['raffle', 'door', 'donation', 'food', 'other'] as const satisfies readonly TakingKind[];

/** The sum of the takings of one kind. */
export function takenOf(takings: readonly Pick<Taking, 'kind' | 'amountCents'>[], wanted: TakingKind): Cents {
  return sumOf(
    takings.filter(({ kind }) => kind === wanted),
    'amountCents',
  );
}

/** What is none of the kinds has to say what it is: nobody could tell it from the report a year later. */
export function decideTaking({ kind, note }: Pick<Taking, 'kind' | 'note'>): Result<null> {
  if (kind !== 'other' || note.trim() !== '') return accept(null);
  return refuse('missing', 'Say in the note what this money is, such as a hat that was auctioned for fun.', 'note');
}
