import { z } from 'zod';
import { accept } from '#lib/result.ts';
import { defineCommand } from '../command.ts';
import { someText } from '../inputs.ts';
import { association } from '../schema/index.ts';
import { addressFields } from './person-fields.ts';

const input = z.strictObject({
  name: someText,
  ...addressFields,
  paper: z.enum(['letter', 'a4'], { error: 'Choose letter or a4.' }).default('letter'),
});

/** Says whose book this is: the name and address that stand on every paper, and the paper's size. */
export const associationSet = defineCommand({
  name: 'association.set',
  summary: 'Sets the name, the address and the paper size of the association.',
  stations: ['office'],
  input,
  run(scene, fields) {
    const row = { id: 1, ...fields, line: scene.line };
    scene.book.db.insert(association).values(row).onConflictDoUpdate({ target: association.id, set: row }).run();
    return accept({ name: fields.name });
  },
});
