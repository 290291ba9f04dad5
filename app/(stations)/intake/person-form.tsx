'use client';

import { useId, useState } from 'react';
import { TextField } from '#app/ui/field.tsx';
import { Act, Form, fieldsOver, SubmitActs } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { emptyTyped, hintOf } from '#lib/field/fields.ts';
import { PERSON_FIELDS, PERSON_QUESTIONS, type PersonAsTyped } from '#lib/person/fields.ts';

interface PersonFormProps {
  /** What was typed of somebody new. */
  readonly name?: string;
  /** Somebody the book knows, whose particulars are put right. */
  readonly known?: { readonly personId: number; readonly typed: PersonAsTyped };
  readonly onDone: (personId: number, fields: PersonAsTyped) => void;
  readonly onLeave: () => void;
}

/** Everything that the settlement sheet and the agency ask of a person; only the name cannot be left out. */
export function PersonForm({ name = '', known, onDone, onLeave }: PersonFormProps) {
  const heading = useId();
  const [fields, setFields] = useState(known?.typed ?? { ...emptyTyped(PERSON_FIELDS), name: name.trim() });
  const { give, busy, elsewhere, errorOf } = useGive('intake');
  const field = fieldsOver(fields, (over) => setFields({ ...fields, ...over }), errorOf);
  const save = async () => {
    const command = known ? 'person.amend' : 'person.enrol';
    const input = known ? { personId: known.personId, ...fields } : fields;
    const reply = await give(command, input, fields.name);
    if (reply.ok) onDone(reply.value.personId, fields);
  };
  const first = known ? 'licenceNo' : name === '' ? 'name' : 'phone';
  return (
    <Form onEntered={save} busy={busy} wrong={elsewhere} aria-labelledby={heading}>
      <h2 id={heading}>{known ? `Particulars of ${known.typed.name}` : 'A new person'}</h2>
      <div className="fields">
        {PERSON_QUESTIONS.map((name) => (
          <TextField
            key={name}
            label={PERSON_FIELDS[name].label}
            hint={hintOf(PERSON_FIELDS[name])}
            autoFocus={name === first}
            {...field(name)}
          />
        ))}
      </div>
      <SubmitActs label={known ? 'Save the particulars' : 'Enrol'} main>
        <Act words={known ? 'Leave them' : 'Back to the search'} act={onLeave} />
      </SubmitActs>
    </Form>
  );
}
