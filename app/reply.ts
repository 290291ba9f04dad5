import 'server-only';

/** What answers a request, before it is given the form of whoever sends it out: the framework's, or Node's own. */
export interface Reply {
  readonly status: number;
  /** Names in lower case. */
  readonly headers: Readonly<Record<string, string>>;
  readonly text: string;
}

export function responseOf({ status, headers, text }: Reply): Response {
  return new Response(text, { status, headers });
}
