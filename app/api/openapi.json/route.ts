import { interfaceDescription } from '#db/book/interface-description.ts';

/** The interface description of the door. */
export function GET(): Response {
  return Response.json(interfaceDescription());
}
