'use client';

import { type FormEvent, useId, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { PersonAsTyped } from '#db/queries/people.ts';

interface PersonFormProps {
  /** What was typed of somebody new. */
  readonly name?: string;
  /** Somebody the book knows, whose particulars are put right. */
  readonly known?: { readonly personId: number; readonly typed: PersonAsTyped };
  readonly onDone: (personId: number, fields: PersonAsTyped) => void;
  readonly onLeave: () => void;
}

const EMPTY: PersonAsTyped = {
  ...{ name: '', street: '', city: '', region: '', postcode: '', phone: '', email: '' },
  ...{ memberNo: '', memberUntil: '', licenceNo: '', licenceRegion: '', licenceExpires: '' },
};

const QUESTIONS: readonly { readonly field: keyof PersonAsTyped; readonly label: string; readonly hint?: string }[] = [
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
export function PersonForm({ name = '', known, onDone, onLeave }: PersonFormProps) {
  const heading = useId();
  const [fields, setFields] = useState(known?.typed ?? { ...EMPTY, name: name.trim() });
  const { give, busy, elsewhere, errorOf } = useGive('intake');
  const save = async (event: FormEvent) => {
    event.preventDefault();
    if (busy) return;
    const command = known ? 'person.amend' : 'person.enrol';
    const input = known ? { personId: known.personId, ...fields } : fields;
    const reply = await give(command, input, fields.name);
    if (reply.ok) onDone(reply.value.personId, fields);
  };
  const first = known ? 'licenceNo' : name === '' ? 'name' : 'phone';
  return (
    <form onSubmit={(event) => void save(event)} aria-labelledby={heading}>
      <h2 id={heading}>{known ? `Particulars of ${known.typed.name}` : 'A new person'}</h2>
      {elsewhere && <Notice kind="stop" title={elsewhere} />}
      <div className="fields">
        {QUESTIONS.map(({ field, label, hint }) => (
          <TextField
            key={field}
            label={label}
            hint={hint}
            error={errorOf(field)}
            value={fields[field]}
            autoFocus={field === first}
            onChange={(event) => setFields({ ...fields, [field]: event.target.value })}
          />
        ))}
      </div>
      <div className="acts">
        <button type="submit" className="act">
          {known ? 'Save the particulars' : 'Enrol'}
        </button>
        <button type="button" onClick={onLeave}>
          {known ? 'Leave them' : 'Back to the box'}
        </button>
      </div>
    </form>
  );
}
