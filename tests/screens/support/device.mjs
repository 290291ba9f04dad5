// A device of the hall that is no browser: asks what a line of its input says, believes the authority that it was given,
// and answers with a line. It stands in the network of a machine, where the test itself is not.
import { request } from 'node:http';
import { request as secureRequest } from 'node:https';
import { createInterface } from 'node:readline';

/** As long as a station waits for an answer. */
const WITHIN_MS = 8000;

function ask({ id, url, method = 'GET', headers = {}, body = '', ca, within = WITHIN_MS }) {
  const say = (answer) => process.stdout.write(`${JSON.stringify({ id, ...answer })}\n`);
  const options = { method, headers, agent: false, timeout: within, ...(ca && { ca }) };
  const sent = (url.startsWith('https:') ? secureRequest : request)(url, options, (answer) => {
    let text = '';
    answer.setEncoding('utf8');
    answer.on('data', (part) => (text += part));
    answer.on('end', () => say({ status: answer.statusCode, headers: answer.headers, text }));
    answer.on('error', (fault) => say({ fault: fault.message }));
  });
  sent.on('timeout', () => sent.destroy(new Error('no answer in time')));
  sent.on('error', (fault) => say({ fault: `${fault.code ?? ''} ${fault.message}` }));
  sent.end(body);
}

createInterface({ input: process.stdin }).on('line', (line) => ask(JSON.parse(line)));
