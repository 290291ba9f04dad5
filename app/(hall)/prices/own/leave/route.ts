import { redirectToOwn, signOutMember } from '#app/request/member-session.ts';
import { isOwnOrigin } from '#app/server/body.ts';

/** Ends the member's session on this device. */
export async function POST(request: Request): Promise<Response> {
  return isOwnOrigin(request) ? signOutMember() : redirectToOwn('');
}
