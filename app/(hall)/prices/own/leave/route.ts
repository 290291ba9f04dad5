import { goOut, leadTo } from '#app/own.ts';
import { isOwnOrigin } from '#app/wire.ts';

/** Ends the look on this device. */
export async function POST(request: Request): Promise<Response> {
  return isOwnOrigin(request) ? goOut() : leadTo('');
}
