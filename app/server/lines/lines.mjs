// The lines of this server, and the one act that opens them to the hall.
import { listen, plainListener, secureListener } from './listeners.mjs';

const LOOK_EVERY_MS = 60_000;

/**
 * `lines` of the server: `begin` listens, for this machine or the whole hall; `open` opens them to the hall while it
 * runs, and gives why it could not, or nothing; `say` is told what a person at the terminal is to know.
 *
 * @returns {{
 *   begin: (hall: boolean) => Promise<void>,
 *   servers: () => (import('node:net').Server & { closeAllConnections: () => void })[],
 * }}
 */
export function linesOf({ behind, ports, dev, say }) {
  const { book } = behind;
  const place = { plain: null, secure: null, hall: false, why: '' };
  const env = (hall) =>
    Object.assign(process.env, { PELTRY_PORT: String(ports.open), PELTRY_HALL: hall ? 'yes' : 'no' });
  env(false);

  async function beginSecure(keys, hall) {
    place.secure = await listen(secureListener(behind, keys), { port: ports.secure, hall, dev });
    // The office's page says where this machine is reached, and pages lead to the encrypted line.
    process.env.PELTRY_SECURE_PORT = String(ports.secure);
  }

  async function begin(hall) {
    const { keys, why } = await book.keys(hall);
    if (why) say(why);
    place.why = why;
    if (keys) await beginSecure(keys, hall);
    place.plain = await listen(plainListener(behind), { port: ports.open, hall, dev });
    place.hall = hall;
    env(hall);
    if (!hall) return;
    book.hallRemembered(true);
    say(...book.welcome(), ...(await book.tried()));
  }

  /** What is connected stays connected: only the places are given up at which new callers come in. */
  function shutDoors() {
    for (const server of [place.plain, place.secure]) server?.close();
  }

  async function open() {
    if (place.hall) return '';
    const { keys, why } = await book.keys(true);
    if (!keys) return why;
    shutDoors();
    try {
      await begin(true);
      return '';
    } catch (fault) {
      shutDoors();
      await begin(false);
      return `The server cannot listen: ${fault.message}.`;
    }
  }

  /** Addresses change with the router, and a certificate ends: both are looked at, and nobody has to start anew. */
  async function look(now = new Date()) {
    if (!place.hall) return;
    const { keys, why, fresh } = await book.keys(true, now);
    // Said once, and not every minute until the office has mended it.
    if (why && why !== place.why) say(why);
    place.why = why;
    if (!keys) return;
    if (place.secure) place.secure.swap(keys);
    else await beginSecure(keys, true);
    if (fresh)
      say('The certificate was made anew, for the addresses of now.', ...book.welcome(), ...(await book.tried()));
  }
  setInterval(() => look().catch((fault) => console.error(fault)), LOOK_EVERY_MS).unref();

  globalThis.peltryHall = { open, look, isOpen: () => place.hall };
  return { begin, servers: () => [place.secure, place.plain].filter((one) => one !== null) };
}
