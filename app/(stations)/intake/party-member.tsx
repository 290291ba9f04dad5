'use client';

import { TextField } from '#app/ui/field.tsx';
import type { FoundPerson } from '#db/queries/people.ts';
import { isHandedOver } from '#lib/dues.ts';
import { DuesFields, type DuesTyped } from './dues-fields.tsx';
import { Standings } from './standings.tsx';

interface PartyMemberProps {
  readonly person: FoundPerson;
  readonly dues: DuesTyped;
  readonly setDues: (dues: DuesTyped) => void;
  /** Only where several share the number. */
  readonly parts: string | undefined;
  readonly setParts: (parts: string) => void;
  readonly errorOf: (field: string) => string | undefined;
  readonly onAmend: () => void;
  readonly onLeave: () => void;
  /** Takes the dues and gives no number; only for one person by themselves. */
  readonly onDuesOnly: (() => void) | undefined;
}

/** Dues are asked of whoever has not paid them, and taken of nobody else. */
export function owesDues({ membership }: FoundPerson): boolean {
  return membership.state !== 'paid';
}

/** Somebody who is to have the number: how they stand, their parts, and dues where they owe some. */
export function PartyMember(props: PartyMemberProps) {
  const { person, dues, setDues, parts, setParts, errorOf, onAmend, onLeave, onDuesOnly } = props;
  const { name, place, membership, licence } = person;
  return (
    <li>
      <strong>{name}</strong> <span className="soft">{place}</span>
      <Standings membership={membership} licence={licence} />
      {parts !== undefined && (
        <TextField
          label={`Parts of ${name}`}
          error={errorOf('parts')}
          inputMode="numeric"
          value={parts}
          onChange={(event) => setParts(event.target.value)}
        />
      )}
      {owesDues(person) && (
        <DuesFields name={name} typed={dues} onChange={setDues} errorOf={(field) => errorOf(`dues.${field}`)} />
      )}
      <div className="acts">
        <button type="button" onClick={onAmend}>
          Particulars of {name}
        </button>
        <button type="button" onClick={onLeave}>
          Take {name} off
        </button>
        {onDuesOnly && dues.how !== '' && isHandedOver(dues.how) && (
          <button type="button" onClick={onDuesOnly}>
            Take the dues only, without furs
          </button>
        )}
      </div>
    </li>
  );
}
