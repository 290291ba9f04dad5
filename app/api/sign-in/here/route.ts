import { signedIn } from '#app/request/caller.ts';
import { jsonResponse } from '#app/server/responses.ts';

/** Says who is signed in on the device that asks; an empty name where nobody is. */
export async function GET(): Promise<Response> {
  return jsonResponse({ worker: (await signedIn())?.name ?? '' });
}
