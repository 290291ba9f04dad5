import 'server-only';
import type { Trouble } from '#db/book/trouble.ts';
import { type Refusal, type RefusalCode, refuse } from '#lib/result/result.ts';

const STATUS: Readonly<Record<RefusalCode, number>> = {
  malformed: 422,
  missing: 422,
  unknown: 422,
  taken: 409,
  already: 409,
  not_allowed: 403,
  signed_out: 401,
  wrong_address: 421,
  open_line: 403,
  wrong_stage: 409,
  on_hold: 409,
  needs_answer: 409,
  conflict: 422,
  too_large: 413,
};

const SHUT: readonly RefusalCode[] = ['signed_out', 'not_allowed', 'wrong_address', 'open_line'];

const NO_STORE = { 'cache-control': 'no-store' };
const HEADERS = { 'content-type': 'application/problem+json', ...NO_STORE };

/** Values as JSON that no cache stores. */
export function jsonResponse(body: unknown, status = 200): Response {
  return Response.json(body, { status, headers: NO_STORE });
}

export const CSV_TYPE = 'text/csv; charset=utf-8; header=present';

interface FileHeaders {
  readonly name: string;
  readonly type: string;
  /** Shown by the browser instead of saved. */
  readonly inline?: boolean;
}

export function fileResponse(body: BodyInit, { name, type, inline = false }: FileHeaders): Response {
  const disposition = `${inline ? 'inline' : 'attachment'}; filename="${name}"`;
  return new Response(body, { headers: { 'content-type': type, 'content-disposition': disposition, ...NO_STORE } });
}

/** What an address names is not there: a refusal with status 404. */
export function notFoundProblem(message: string, field?: string): Response {
  return problem(refuse('unknown', message, field), 404);
}

/** A refusal as RFC 9457 problem details, with our code, the field and whatever else was wrong. */
export function problem(refusal: Refusal, otherStatus?: number): Response {
  // Who may not enter is told so, whatever a route says of what it did not find.
  const shut = SHUT.includes(refusal.code);
  const status = shut ? STATUS[refusal.code] : (otherStatus ?? STATUS[refusal.code]);
  const { ok, message, ...rest } = refusal;
  const body = { type: `urn:peltry:refusal:${refusal.code}`, title: 'Refused', status, detail: message, ...rest };
  return Response.json(body, { status, headers: HEADERS });
}

/** Nothing can be written now: no refusal, so that the entry waits in the browser and is sent again. */
export function troubleProblem(trouble: Trouble | null): Response {
  const status = 503;
  const title = trouble?.title ?? 'There is no book to write to.';
  const body = { type: `urn:peltry:trouble:${trouble?.kind ?? 'none'}`, title, status, detail: trouble?.toDo ?? '' };
  return Response.json(body, { status, headers: { ...HEADERS, 'retry-after': '5' } });
}
