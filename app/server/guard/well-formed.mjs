// What no browser of ours sends is turned away before the framework, which would answer some of it as a fault of its own.

const LONGEST_ADDRESS = 4000;
/** Routes that take something; every other address is read only. */
const TAKES = /^\/(api\/|prices\/own\/(enter|leave)$)/;
/** Headers of the framework's own: what its pages send is checked below, and nobody else has a use for the rest. */
const FRAMEWORKS = /^(rsc$|next-|x-(nextjs|next|middleware|invoke|matched|now|vercel|prerender|action|rewrite)-)/;

const KNOWN = {
  rsc: (said) => said === '1',
  'next-router-prefetch': (said) => /^[1-3]$/.test(said),
  'next-router-segment-prefetch': (said) => said.length < 500 && /^\/[\w/$.@()[\]-]*$/.test(said),
  'next-url': (said) => isAddress(said),
  'next-router-state-tree': (said) => said.length < 20_000 && isTree(treeIn(said)),
};

const BAD_ADDRESS = { status: 400, code: 'malformed', detail: 'Ask for a page of this server.' };
const BAD_HEADER = { ...BAD_ADDRESS, detail: 'This request carries something that no page of this server sends.' };
const BAD_METHOD = { status: 405, code: 'malformed', detail: 'This address can only be read.' };

/** Why a request cannot come from a page of ours, or null. Headers of the framework that say nothing are taken away. */
export function notWellFormed({ url, method, headers }) {
  const [path] = url.split('?');
  if (!isAddress(url)) return BAD_ADDRESS;
  if (!(method === 'GET' || method === 'HEAD')) {
    if (method !== 'POST' || !TAKES.test(path))
      return { ...BAD_METHOD, allow: TAKES.test(path) ? 'GET, HEAD, POST' : 'GET, HEAD' };
  }
  // Nothing here is a server action.
  if (headers['next-action'] !== undefined) return BAD_HEADER;
  for (const name of Object.keys(headers).filter((one) => FRAMEWORKS.test(one))) {
    if (KNOWN[name] === undefined) delete headers[name];
    else if (!KNOWN[name](headers[name])) return BAD_HEADER;
  }
  return null;
}

/** An address that is decoded once, leads nowhere else, and holds nothing that is decoded a second time. */
function isAddress(url) {
  if (url.length > LONGEST_ADDRESS || !/^\/(?!\/)/.test(url)) return false;
  const [path, ...query] = url.split('?');
  try {
    decodeURIComponent(query.join('?').replaceAll('+', ' '));
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
    return !/[%\\\x00-\x1f\x7f]|\/\/|\/\.\.?(\/|$)/.test(decodeURIComponent(path));
  } catch {
    return false;
  }
}

function treeIn(said) {
  try {
    return JSON.parse(decodeURIComponent(said));
  } catch {
    return undefined;
  }
}

/** A part of the page's tree: its name, what is within, and marks of the framework. */
function isTree(value, depth = 0) {
  if (!Array.isArray(value) || value.length < 2 || value.length > 6 || depth > 20) return false;
  const [segment, within, refetch, mark, flags, last] = value;
  return (
    isSegment(segment) &&
    isRecord(within) &&
    Object.values(within).every((one) => isTree(one, depth + 1)) &&
    (refetch == null || (Array.isArray(refetch) && refetch.length === 2 && refetch.every(isText))) &&
    (mark == null || ['refetch', 'inside-shared-layout', 'metadata-only'].includes(mark)) &&
    (flags == null || typeof flags === 'number') &&
    (last === undefined || isText(last))
  );
}

const isText = (value) => typeof value === 'string';
const isRecord = (value) => typeof value === 'object' && value !== null && !Array.isArray(value);

function isSegment(value) {
  if (isText(value)) return true;
  if (!Array.isArray(value) || value.length !== 4 || !value.slice(0, 3).every(isText)) return false;
  const [, , type, siblings] = value;
  return (
    /^(c|oc|d|[cd]i\(\.{1,3}\)(\(\.\.\))?)$/.test(type) &&
    (siblings === null || (Array.isArray(siblings) && siblings.every(isText)))
  );
}
