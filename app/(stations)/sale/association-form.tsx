'use client';

import { useSyncExternalStore } from 'react';
import { ChoiceField, TextField } from '#app/ui/field.tsx';
import { Form, fieldsOver, Options, SubmitActs } from '#app/ui/form.tsx';
import { useGive } from '#app/ui/use-give.ts';
import type { SheetAssociation } from '#lib/settlement/parties.ts';
import { useStored } from './use-stored.ts';

interface TypedAssociation extends SheetAssociation {
  readonly paper: 'letter' | 'a4';
  /** Null where nobody has said it: then that of the machine is offered. */
  readonly timeZone: string | null;
}

const FIELDS = [
  { name: 'name', label: 'Association', hint: 'Stands at the top of every paper.', wide: true },
  { name: 'street', label: 'Street', hint: 'Stands on settlement sheets and invoices.' },
  { name: 'city', label: 'Town', hint: '' },
  { name: 'region', label: 'State', hint: 'As US-WY.' },
  { name: 'postcode', label: 'ZIP or postcode', hint: '' },
  { name: 'phone', label: 'Phone', hint: 'Where sellers and buyers ask.' },
  { name: 'email', label: 'E-mail', hint: '' },
] as const;

/** Those of the United States; any other is typed. */
const ZONES = [
  ['America/New_York', 'Eastern'],
  ['America/Chicago', 'Central'],
  ['America/Denver', 'Mountain'],
  ['America/Phoenix', 'Arizona'],
  ['America/Los_Angeles', 'Pacific'],
  ['America/Anchorage', 'Alaska'],
  ['Pacific/Honolulu', 'Hawaii'],
] as const;

const NEVER = () => () => {};
const zoneOfMachine = () => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** Whose book it is: the name and address on every paper, the size of that paper, and whose days it bears. */
export function AssociationForm({ start, act }: { readonly start: TypedAssociation; readonly act: string }) {
  const [typed, keep, forget] = useStored('peltry-association', start);
  const zoneHere = useSyncExternalStore(NEVER, zoneOfMachine, () => '');
  const timeZone = typed.timeZone ?? zoneHere;
  const { give, busy, refusal, errorOf } = useGive('office');
  const said = { ...typed, timeZone };
  const change = (over: Partial<TypedAssociation>) => keep((now) => ({ ...now, ...over }));
  const field = fieldsOver(said, change, errorOf);
  const save = async () => {
    const answer = await give('association.set', said, 'Association');
    if (answer.ok) forget();
  };
  return (
    <Form className="sale-form" onEntered={save} wrong={refusal?.message}>
      <div className="fields">
        {FIELDS.map(({ name, ...words }) => (
          <TextField key={name} {...words} {...field(name)} />
        ))}
        <TextField
          label="Time zone"
          hint="The day on every paper is the day there."
          list="time-zones"
          {...field('timeZone')}
        />
        {zoneHere !== '' && timeZone !== zoneHere && (
          <p className="wide">{`This device is set to ${zoneHere}. Every screen and paper shows times in ${timeZone}.`}</p>
        )}
        <datalist id="time-zones">
          <Options of={ZONES} />
        </datalist>
        <ChoiceField
          label="Paper"
          value={typed.paper}
          onPick={(value) => change({ paper: value === 'a4' ? 'a4' : 'letter' })}
        >
          <option value="letter">US Letter</option>
          <option value="a4">A4</option>
        </ChoiceField>
      </div>
      <SubmitActs label={act} main disabled={busy} />
    </Form>
  );
}
