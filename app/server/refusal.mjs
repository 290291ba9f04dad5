// What is turned away before the application, as the caller can read it: a page for a browser, RFC 9457 for a program.

const HEADS = {
  malformed: 'This is no address of a page.',
  wrong_address: 'This is not the address of the sale.',
  too_large: 'This is too much at once.',
  on_hold: 'Too much at once comes from here.',
};

/**
 * The type and the text of the answer. The page stands without a style sheet: under a name that is not ours none would
 * be given out either. Nothing that the caller said is repeated in it.
 *
 * @returns {[type: string, text: string]}
 */
export function refusalText({ accept = '' }, { status, code, detail }) {
  if (!accept.includes('text/html')) {
    const type = `urn:peltry:refusal:${code}`;
    return ['application/problem+json', JSON.stringify({ type, title: 'Refused', status, detail, code })];
  }
  const page = [
    '<!doctype html><html lang="en"><head><meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${HEADS[code]}</title></head>`,
    `<body><main><h1>${HEADS[code]}</h1><p>${detail}</p></main></body></html>`,
  ];
  return ['text/html; charset=utf-8', page.join('\n')];
}
