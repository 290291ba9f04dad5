import { interfaceDescription } from '#db/interface-description.ts';

/** The interface description of the door. */
export function GET(): Response {
  return Response.json(interfaceDescription());
}
