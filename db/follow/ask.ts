/** Asks the first laptop, and says why no answer came in a sentence that tells what to do. */
import { existsSync, readFileSync } from 'node:fs';
import { type IncomingHttpHeaders, request as openRequest, type RequestOptions } from 'node:http';
import { request as secureRequest } from 'node:https';
import { rootCertificates } from 'node:tls';
import { certificateFile } from '#db/certificate/names.ts';
import { type Refusal, refuse } from '#lib/result/result.ts';

interface Asking {
  readonly method?: 'GET' | 'POST';
  readonly headers: Readonly<Record<string, string>>;
  readonly body?: string;
  readonly signal: AbortSignal;
  /** Certificates of authorities to believe, as PEM; those of the system where none are given. */
  readonly ca?: readonly string[] | undefined;
  /** Takes any certificate: for what is public and is compared by its words afterwards. */
  readonly unproved?: boolean;
}

export interface Answered {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
}

/** What a first laptop answers at most: five hundred lines of the largest entries are far below. */
const LONGEST = 600_000_000;

/** Never follows a redirect. Rejects with Node's error where no answer came. */
export function askLaptop(
  url: URL,
  { method = 'GET', headers, body, signal, ca, unproved }: Asking,
): Promise<Answered> {
  return new Promise((resolve, reject) => {
    const trust = { ...(ca && { ca: [...ca] }), ...(unproved && { rejectUnauthorized: false }) };
    const options: RequestOptions = { method, headers: { ...headers }, signal, agent: false, ...trust };
    const asked = (url.protocol === 'https:' ? secureRequest : openRequest)(url, options, (answer) => {
      const parts: Buffer[] = [];
      let length = 0;
      answer.on('data', (part: Buffer) => {
        length += part.length;
        if (length > LONGEST) asked.destroy(new Error('The answer is too long.'));
        else parts.push(part);
      });
      answer.on('error', reject);
      answer.on('end', () => {
        const { statusCode: status = 0, headers: said } = answer;
        resolve({ status, headers: said, text: Buffer.concat(parts).toString() });
      });
    });
    asked.on('error', reject);
    asked.end(body);
  });
}

/** Whom this laptop believes: the authority that lies beside its book, and what Node was told of. Undefined where none lies there. */
export function believed(bookFile: string): string[] | undefined {
  const own = certificateFile(bookFile, 'authority');
  if (!existsSync(own)) return undefined;
  const extra = process.env.NODE_EXTRA_CA_CERTS ?? '';
  return [readFileSync(own, 'utf8'), ...rootCertificates, ...(existsSync(extra) ? [readFileSync(extra, 'utf8')] : [])];
}

const TRUST =
  'Give the six words of Office, Doors behind --words, with hyphens between, or bring its authority.pem over: docs/network.md.';
const CLOCKS = 'Compare the clocks of both laptops, and start the program on the first one anew with --hall.';

/** By the codes of Node and OpenSSL. What may pass by itself is `missing`: it is asked again. */
const CAUSES: readonly (readonly [codes: RegExp, words: (host: string, fault: Error) => string, passes?: boolean])[] = [
  [
    /ALTNAME/,
    (host, fault) =>
      `The certificate of the first laptop is not for ${host}: use one of its addresses at Office, Network.${namesOfFault(fault)}`,
  ],
  [/EXPIRED/, () => `The certificate of the first laptop has ended by this laptop's clock. ${CLOCKS}`],
  [/NOT_YET_VALID/, () => `The certificate of the first laptop is not good yet by this laptop's clock. ${CLOCKS}`],
  [
    /CERT|VERIFY|ISSUER|SIGNATURE/,
    () => `The certificate of the first laptop is not known here: another authority made it. ${TRUST}`,
  ],
  [
    /WRONG_VERSION|PACKET_LENGTH|EPROTO|HPE_/,
    (host) =>
      `What answers at ${host} does not encrypt. The port of the address that begins with https is mostly 3443.`,
  ],
  [/ENOTFOUND|EAI_AGAIN/, (host) => `No machine is known as ${host}: use the address in figures.`, true],
  [
    /ECONNREFUSED/,
    (host) => `Nothing listens at ${host}: is the program on the first laptop started with --hall, at this port?`,
    true,
  ],
  [/EHOSTUNREACH|ENETUNREACH/, (host) => `${host} is not reached: are both laptops on the same network?`, true],
];

/** A refusal for a fault of the way; `missing` where asking again may help. */
export function noAnswer(fault: unknown, url: URL): Refusal {
  const { code, message } = fault as { readonly code?: unknown; readonly message?: string };
  const said = `${String(code ?? '')} ${message ?? ''}`;
  const known = CAUSES.find(([codes]) => codes.test(said));
  if (!known) return refuse('missing', 'The first laptop does not answer: it is off, asleep, or on another network.');
  const [, words, passes = false] = known;
  return refuse(passes ? 'missing' : 'wrong_address', words(url.host, fault as Error));
}

/** For which names the certificate is, as far as Node says. */
function namesOfFault(fault: Error): string {
  const { subjectaltname: names } = (fault as { cert?: { subjectaltname?: string } }).cert ?? {};
  return names ? ` It is for ${printable(names).replace(/DNS:|IP Address:/g, '')}.` : '';
}

/** What another machine says, for a terminal: one line, no control characters. */
export function printable(text: string): string {
  return text.replace(/[^\x20-\x7e\u00a0-\uffff]/g, ' ').slice(0, 400);
}
