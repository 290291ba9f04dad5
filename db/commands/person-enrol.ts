import { z } from 'zod';
import { PERSON_FIELDS } from '#lib/person/fields.ts';
import { accept, refuse } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { shapeOf, text } from '../inputs.ts';
import { personByRef } from '../queries/find.ts';
import { savePerson } from '../save/person.ts';

const input = z.strictObject({ ref: text, ...shapeOf(PERSON_FIELDS) });

/** Adds a person to the association's people; the reference is drawn where none is given. */
export const personEnrol = defineCommand({
  name: 'person.enrol',
  summary: 'Adds a person: a member, a guest or a buyer.',
  logLabel: 'Person enrolled',
  stations: ['intake', 'till', 'office'],
  input,
  run(context, { ref, ...fields }) {
    if (ref !== '' && personByRef(context.book, ref)) {
      return refuse(
        'taken',
        `The reference ${ref} belongs to somebody else: leave it empty to draw a free one.`,
        'ref',
      );
    }
    const saved = savePerson(context, ref, fields);
    return accept({ personId: saved.id, ref: saved.ref });
  },
});
