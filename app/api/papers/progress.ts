import 'server-only';

/** How far the papers of this process are that somebody waits for, by the key that the waiting page drew. */
export interface PaperProgress {
  readonly done: number;
  readonly of: number;
}

/** Pages and route handlers of one server get a module each, so what they share hangs on `globalThis`. */
const shared = globalThis as { peltryPaperProgress?: Map<string, PaperProgress> };

function progress(): Map<string, PaperProgress> {
  shared.peltryPaperProgress ??= new Map();
  return shared.peltryPaperProgress;
}

/** A key is letters, digits and hyphens; whatever else an address brings is nobody's. */
export function watchOf(request: Request): string | null {
  const key = new URL(request.url).searchParams.get('watch') ?? '';
  return /^[\w-]{8,64}$/.test(key) ? key : null;
}

export function progressOf(watch: string): PaperProgress | null {
  return progress().get(watch) ?? null;
}

/** Draws while telling of the progress under a key; the key is forgotten when it is done. */
export async function told<T>(
  watch: string | null,
  draw: (tell: (done: number, of: number) => void) => Promise<T>,
): Promise<T> {
  if (watch === null) return draw(() => {});
  try {
    return await draw((done, of) => progress().set(watch, { done, of }));
  } finally {
    progress().delete(watch);
  }
}
