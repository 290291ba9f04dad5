// What every answer carries, whatever it holds. The names are those of the OWASP Secure Headers Project's list.
import { randomBytes } from 'node:crypto';

/** Goes out with everything. */
const ALWAYS = {
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  // Not "no-referrer": a browser would then hide the origin of a form, by which we know our own.
  'referrer-policy': 'same-origin',
  'permissions-policy': 'camera=(), microphone=(), geolocation=(), payment=(), usb=(), browsing-topics=()',
  'cross-origin-resource-policy': 'same-origin',
  'x-permitted-cross-domain-policies': 'none',
};

/** What a browser heeds over an encrypted line only, and complains about elsewhere. */
const SECURE = { 'cross-origin-opener-policy': 'same-origin' };

/** A page loads from here and nowhere else, and runs only the scripts that carry this answer's own word. */
const pagePolicy = (nonce, further = '') =>
  [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'`,
    "style-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
    ...(further ? [`connect-src 'self' ${further}`] : []),
  ].join('; ');

/** The card for joining tries the encrypted line, which is another origin than the open one. */
const triedFrom = (url) => {
  const { PELTRY_SECURE_PORT: port } = process.env;
  return port && /^\/join(\?|$)/.test(url) ? `https://*:${port}` : '';
};

/** A file or an answer in JSON is no page: it runs nothing. The shared worker may ask here for events. */
const FILE_POLICY =
  "script-src 'none'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/**
 * Sets the headers of the answer. Of the request it sets the policy, out of which Next takes the word for its own
 * scripts: a browser cannot hand in one of its own.
 */
export function setHeaders(request, response, { secure }) {
  for (const [name, value] of Object.entries(secure ? { ...ALWAYS, ...SECURE } : ALWAYS))
    response.setHeader(name, value);
  const isFile = /^\/(api|_next)\//.test(request.url);
  const policy = isFile ? FILE_POLICY : pagePolicy(randomBytes(16).toString('base64'), triedFrom(request.url));
  request.headers['content-security-policy'] = policy;
  response.setHeader('content-security-policy', policy);
}
