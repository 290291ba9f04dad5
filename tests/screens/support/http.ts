import { once } from 'node:events';
import { Agent, type IncomingHttpHeaders, type IncomingMessage, request } from 'node:http';
import { request as secureRequest } from 'node:https';
import { createServer } from 'node:net';

/** A request with exactly these headers, Host and Origin among them, which `fetch` would write itself. */

export interface Raw {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
}

export interface RawOptions {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string;
  /** The certificate of the authority to believe, for an address that begins with https. */
  readonly ca?: string;
}

const agent = new Agent({ keepAlive: true, maxSockets: 20 });
/** A stream of events has no end: of it the beginning is read. */
const isStream = ({ headers }: IncomingMessage) => headers['content-type']?.startsWith('text/event-stream');

export async function raw(url: string, { method = 'GET', headers = {}, body = '', ca }: RawOptions = {}): Promise<Raw> {
  const asked = { method, headers, timeout: 280_000 };
  const sent = url.startsWith('https:')
    ? secureRequest(url, { ...asked, ...(ca && { ca }) })
    : request(url, { ...asked, agent });
  sent.on('timeout', () => sent.destroy(new Error(`${method} ${url} took too long.`)));
  sent.end(body);
  const [answer] = (await once(sent, 'response')) as [IncomingMessage];
  const parts: Buffer[] = [];
  if (isStream(answer)) answer.destroy();
  else for await (const part of answer) parts.push(part as Buffer);
  return { status: answer.statusCode ?? 0, headers: answer.headers, text: Buffer.concat(parts).toString() };
}

/** The words of a page or of a part of it, as a reader gets them: without its marks, and without its scripts. */
export function wordsOf(html: string): string {
  const marks = html.replace(/<(script|style)\b[\s\S]*?<\/\1>/g, ' ').replace(/<!--[\s\S]*?-->/g, '');
  const words = marks
    .replace(/<[^>]*>?/g, ' ')
    .replace(/&#x27;/g, "'")
    .replace(/&quot;/g, '"')
    .replace(/&amp;/g, '&');
  return words.replace(/\s+/g, ' ').trim();
}

/** A port of 127.0.0.1 that nobody listens on at this moment. */
export async function freePort(): Promise<number> {
  const probe = createServer().listen(0, '127.0.0.1');
  await once(probe, 'listening');
  const address = probe.address();
  probe.close();
  await once(probe, 'close');
  if (address === null || typeof address === 'string') throw new Error('The probe got no port.');
  return address.port;
}
