import { goOut, isFromHere, leadTo } from '#app/own.ts';

/** Ends the session of this device. */
export async function POST(request: Request): Promise<Response> {
  return isFromHere(request) ? goOut() : leadTo('');
}
