import type { z } from 'zod';
import { parseRegion } from '#lib/codes.ts';
import { dateOrNull, readByOrNull, someText, text } from '../inputs.ts';

/** Where somebody is reached; the association has these too. */
export const addressFields = {
  street: text,
  city: text,
  region: text,
  postcode: text,
  phone: text,
  email: text,
} satisfies z.ZodRawShape;

/** Who somebody is, as the enrolment form asks it. */
export const personFields = {
  name: someText,
  ...addressFields,
  memberNo: text,
  memberUntil: dateOrNull.default(null),
  licenceNo: text,
  licenceRegion: readByOrNull(parseRegion)
    .transform((region) => region ?? '')
    .default(''),
  licenceExpires: dateOrNull.default(null),
} satisfies z.ZodRawShape;
