'use client';

import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { fieldsOver } from '#app/ui/form.tsx';
import { shortDate } from '#lib/date/date.ts';
import { dayTyped } from '#lib/date/typed-date.ts';
import { type DuesHow, duesPaidUntil } from '#lib/person/dues.ts';
import type { TableRules } from './standings.tsx';

/** Dues as they are being said; `how` is empty where none are taken. */
export interface DuesTyped {
  readonly how: '' | DuesHow;
  readonly amount: string;
  readonly memberUntil: string;
  readonly reference: string;
}

/** Nothing taken yet, with the sale's own sum and day to go by. */
export function duesOf({ dues, heldOn, duesUntil }: TableRules, memberUntil: string): DuesTyped {
  const until = duesPaidUntil({ heldOn, duesUntil }, dayTyped(memberUntil));
  return { how: '', amount: dues, memberUntil: shortDate(until), reference: '' };
}

/** What a check or a slip is found by again; of the other ways there is nothing to write down. */
const REFERENCE = { cash: '', deducted: '', check: 'Number of the check', card: 'Number on the card’s slip' } as const;

/** How dues were paid, behind their sum. */
export const DUES_HOW = { cash: 'in cash', check: 'by check', card: 'by card', deducted: 'from the proceeds' } as const;

/** What goes to the book: a number of a check or a slip only where it is asked, and nothing where no dues are taken. */
export function duesSaid({ how, ...typed }: DuesTyped): (DuesTyped & { readonly how: DuesHow }) | null {
  if (how === '') return null;
  return { ...typed, how, reference: REFERENCE[how] === '' ? '' : typed.reference };
}

/** What dues leave as it is: an earlier sale that is still open goes by those that stood when it was held. */
export function notChanged(sales: readonly string[] = []): string {
  return sales.map((sale) => `${sale} does not change: it goes by the dues paid when it was held.`).join(' ');
}

interface DuesFieldsProps {
  readonly name: string;
  readonly typed: DuesTyped;
  readonly onChange: (typed: DuesTyped) => void;
  readonly errorOf: (field: string) => string | undefined;
}

/** How somebody's dues are paid; the sum and the day are asked only where some are taken. */
export function DuesFieldset({ name, typed, onChange, errorOf }: DuesFieldsProps) {
  const field = fieldsOver(typed, (over) => onChange({ ...typed, ...over }), errorOf);
  const reference = typed.how === '' ? '' : REFERENCE[typed.how];
  return (
    <div className="fields">
      <ChoiceField label={`Dues of ${name}`} {...field('how')}>
        <option value="">None now</option>
        <option value="cash">In cash</option>
        <option value="check">By check</option>
        <option value="card">By card</option>
        <option value="deducted">From the proceeds</option>
      </ChoiceField>
      {typed.how !== '' && (
        <>
          <TextField label="Amount of the dues" inputMode="decimal" {...field('amount')} />
          <TextField label="Dues paid until" hint="Such as Dec 31, 2027" {...field('memberUntil')} />
          {reference !== '' && <TextField label={reference} {...field('reference')} />}
        </>
      )}
    </div>
  );
}
