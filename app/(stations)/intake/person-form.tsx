'use client';

import { type FormEvent, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { FoundPerson } from '#db/queries/people.ts';

interface PersonFormProps {
  readonly name: string;
  readonly onEnrolled: (person: FoundPerson) => void;
  readonly onLeave: () => void;
}

const EMPTY = {
  name: '',
  street: '',
  city: '',
  region: '',
  postcode: '',
  phone: '',
  email: '',
  memberNo: '',
  memberUntil: '',
  licenceNo: '',
  licenceRegion: '',
  licenceExpires: '',
};

type Fields = typeof EMPTY;

const QUESTIONS: readonly { readonly field: keyof Fields; readonly label: string; readonly hint?: string }[] = [
  { field: 'name', label: 'Full name' },
  { field: 'phone', label: 'Phone' },
  { field: 'street', label: 'Street' },
  { field: 'city', label: 'Town' },
  { field: 'region', label: 'State' },
  { field: 'postcode', label: 'Postcode' },
  { field: 'licenceNo', label: 'Licence number' },
  { field: 'licenceRegion', label: 'Licence of', hint: 'Country and State, such as US-WY' },
  { field: 'licenceExpires', label: 'Licence expires', hint: 'Year-month-day, such as 2026-12-31' },
  { field: 'memberNo', label: 'Member number', hint: 'Empty for a guest' },
  { field: 'memberUntil', label: 'Dues paid until', hint: 'Year-month-day; empty for a guest' },
];

/** Everything that the settlement sheet and the agency ask of a person; only the name cannot be left out. */
export function PersonForm({ name, onEnrolled, onLeave }: PersonFormProps) {
  const [fields, setFields] = useState<Fields>({ ...EMPTY, name: name.trim() });
  const { give, busy, refusal, errorOf } = useGive('intake');
  const enrol = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const reply = await give({ command: 'person.enrol', input: fields, label: fields.name });
    if (reply.ok) onEnrolled(asFound(fields, (reply.value as { personId: number }).personId));
  };
  const elsewhere = refusal && !QUESTIONS.some(({ field }) => errorOf(field) !== undefined);
  return (
    <form onSubmit={(event) => void enrol(event)} aria-labelledby="new-person">
      <h2 id="new-person">A new person</h2>
      {elsewhere && <Notice kind="stop" title={refusal.message} />}
      <div className="fields">
        {QUESTIONS.map(({ field, label, hint }) => (
          <TextField
            key={field}
            label={label}
            hint={hint}
            error={errorOf(field)}
            value={fields[field]}
            autoFocus={field === (name === '' ? 'name' : 'phone')}
            onChange={(event) => setFields({ ...fields, [field]: event.target.value })}
          />
        ))}
      </div>
      <div className="acts">
        <button type="submit" className="act">
          Enrol
        </button>
        <button type="button" onClick={onLeave}>
          Back to the box
        </button>
      </div>
    </form>
  );
}

/** What the next step shows of somebody who was enrolled this moment; the seller's page reads the book's own words. */
function asFound({ name, city, region, phone, memberUntil, licenceNo }: Fields, personId: number): FoundPerson {
  return {
    ...{ personId, name, phone, sellerNos: [] },
    place: [city, region].filter(Boolean).join(', '),
    membership:
      memberUntil === '' ? { state: 'guest', words: 'Guest' } : { state: 'paid', words: `Dues until ${memberUntil}` },
    licence:
      licenceNo === ''
        ? { state: 'missing', words: 'No licence on record' }
        : { state: 'undated', words: `Licence ${licenceNo}` },
  };
}
