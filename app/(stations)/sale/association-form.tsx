'use client';

import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Form } from '#app/ui/form.tsx';
import { Notice } from '#app/ui/notice.tsx';
import { useGive } from '#app/ui/use-give.ts';
import { useKept } from '#app/ui/use-kept.ts';
import type { SheetAssociation } from '#lib/sheet/input.ts';

export interface TypedAssociation extends SheetAssociation {
  readonly paper: 'letter' | 'a4';
}

const FIELDS = [
  { name: 'name', label: 'Association', hint: 'Stands at the top of every paper.' },
  { name: 'street', label: 'Street', hint: 'Stands on settlement sheets and invoices.' },
  { name: 'city', label: 'Town', hint: '' },
  { name: 'region', label: 'State', hint: 'As US-WY.' },
  { name: 'postcode', label: 'ZIP or postcode', hint: '' },
  { name: 'phone', label: 'Phone', hint: 'Where sellers and buyers ask.' },
  { name: 'email', label: 'E-mail', hint: '' },
] as const;

interface AssociationFormProps {
  readonly start: TypedAssociation;
  readonly act: string;
}

/** Whose book it is: the name and address on every paper, and the size of that paper. */
export function AssociationForm({ start, act }: AssociationFormProps) {
  const [typed, keep, forget] = useKept('peltry-association', start);
  const { give, busy, refusal, errorOf } = useGive('office');
  const save = async () => {
    const answer = await give({ command: 'association.set', input: typed, label: 'Association' });
    if (answer.ok) forget();
  };
  return (
    <Form className="sale-form" onEntered={save}>
      {refusal && <Notice kind="stop" title={refusal.message} />}
      <div className="fields">
        {FIELDS.map(({ name, label, hint }) => (
          <TextField
            key={name}
            {...{ label, hint }}
            wide={name === 'name'}
            error={errorOf(name)}
            value={typed[name]}
            onChange={({ target }) => keep((now) => ({ ...now, [name]: target.value }))}
          />
        ))}
        <ChoiceField
          label="Paper"
          value={typed.paper}
          onChange={({ target }) => keep((now) => ({ ...now, paper: target.value === 'a4' ? 'a4' : 'letter' }))}
        >
          <option value="letter">US Letter</option>
          <option value="a4">A4</option>
        </ChoiceField>
      </div>
      <div className="acts">
        <button type="submit" className="act" disabled={busy}>
          {act}
        </button>
      </div>
    </Form>
  );
}
