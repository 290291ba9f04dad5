import { connection } from 'next/server';

/**
 * The server's time, for a device that is to join: it shows whether its clock is right, and over the encrypted line
 * whether it takes our certificate. The page stands on the open line, so any page may read this; it holds nothing else.
 */
export async function GET(): Promise<Response> {
  await connection();
  const headers = { 'access-control-allow-origin': '*', 'cache-control': 'no-store' };
  return Response.json({ ok: true, now: Date.now() }, { headers });
}
