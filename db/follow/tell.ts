/** Says to another laptop, over any line, who leads its book. */
import { request as openRequest } from 'node:http';
import { request as secureRequest } from 'node:https';
import { LEAD_COOKIE } from './lead.ts';

const ANSWER_WITHIN_MS = 4000;

/** What the other laptop made of it: it leads no more, it does not answer, or it goes on for some reason. */
export type Told = 'deposed' | 'silent' | 'goes on';

/**
 * Tells it once. What is told is sealed and no secret, and what is answered changes nothing here: so no certificate is
 * asked for, and a laptop whose certificate ran out is stopped all the same.
 */
export function tellLead(address: string, sealed: string): Promise<Told> {
  return new Promise((resolve) => {
    try {
      const url = new URL('/api/live/line', address);
      const ask = url.protocol === 'https:' ? secureRequest : openRequest;
      const options = { headers: { cookie: `${LEAD_COOKIE}=${sealed}` }, rejectUnauthorized: false, agent: false };
      const asked = ask(url, { ...options, timeout: ANSWER_WITHIN_MS }, (answer) => {
        answer.resume();
        resolve(answer.headers['x-peltry-deposed'] === undefined ? 'goes on' : 'deposed');
      });
      asked.on('timeout', () => asked.destroy());
      asked.on('error', () => resolve('silent'));
      asked.end();
    } catch {
      resolve('silent');
    }
  });
}
