import { z } from 'zod';
import { parseTimeZone } from '#lib/local-day.ts';
import { CONTACT_FIELDS } from '#lib/person/fields.ts';
import { accept } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { readBy, shapeOf, someText } from '../inputs.ts';
import { association } from '../schema/index.ts';

const input = z.strictObject({
  name: someText,
  ...shapeOf(CONTACT_FIELDS),
  paper: z.enum(['letter', 'a4'], { error: 'Choose letter or a4.' }).default('letter'),
  /** The IANA name, such as America/Denver. Left out, it stays what it was. */
  timeZone: readBy(parseTimeZone).optional(),
});

/** Says whose book this is: the name and address that stand on every paper, the paper's size, and the time zone. */
export const associationSet = defineCommand({
  name: 'association.set',
  summary: 'Sets the name, the address, the paper size and the time zone of the association.',
  logLabel: 'Association set',
  stations: ['office'],
  input,
  run(context, { timeZone, ...fields }) {
    // A zone that is not said leaves the one that is there: from line to line days do not change unasked.
    const row = { id: 1, ...fields, ...(timeZone === undefined ? {} : { timeZone }), line: context.line };
    context.book.db.insert(association).values(row).onConflictDoUpdate({ target: association.id, set: row }).run();
    return accept({ name: fields.name });
  },
});
