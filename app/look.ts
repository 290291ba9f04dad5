/** What `server/look.mjs` finds in the book's file while the application is being loaded. */
interface Look {
  readonly file: string;
  readonly done: Promise<unknown>;
  readonly found: string | undefined;
}

const place = globalThis as typeof globalThis & { peltryLook?: Look | undefined };

/** Waits until the server has looked through the file with which it starts. */
export async function looked(): Promise<void> {
  if (place.peltryLook) await place.peltryLook.done;
}

/** `ok`, the first damage that was found, or undefined where nobody has looked. A look is good for one opening. */
export function takeLook(file: string): string | undefined {
  const { peltryLook: look } = place;
  place.peltryLook = undefined;
  return look?.file === file ? look.found : undefined;
}
