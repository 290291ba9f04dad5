import { describe, expect, it } from 'vitest';
import { refusalText } from '#app/server/refusal.mjs';

const refusal = { status: 421, code: 'wrong_address', detail: 'This machine is not known under that name.' };
// What a browser asks with when somebody opens an address, by the Fetch standard's default for documents.
const BROWSER = 'text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8';

describe('what is turned away at the gate', () => {
  it('is a page for a browser, with the sentence that says what to do', () => {
    const [type, text] = refusalText({ accept: BROWSER }, refusal);
    expect(type).toBe('text/html; charset=utf-8');
    expect(text).toContain('<h1>This is not the address of the sale.</h1>');
    expect(text).toContain(`<p>${refusal.detail}</p>`);
  });

  it.each(['*/*', 'application/json', undefined])('is a problem by RFC 9457 for a program that takes %s', (accept) => {
    const [type, text] = refusalText(accept === undefined ? {} : { accept }, refusal);
    expect(type).toBe('application/problem+json');
    expect(JSON.parse(text)).toEqual({ type: 'urn:peltry:refusal:wrong_address', title: 'Refused', ...refusal });
  });
});
