import { goOut, leadTo } from '#app/request/member.ts';
import { isOwnOrigin } from '#app/server/body.ts';

/** Ends the member's session on this device. */
export async function POST(request: Request): Promise<Response> {
  return isOwnOrigin(request) ? goOut() : leadTo('');
}
