import { strToU8, zipSync } from 'fflate';

/** An exchange folder as one file to save. `day` is an ISO 8601 date: the files of the archive bear it. */
export function zipFolder(texts: ReadonlyMap<string, string>, day: string): Uint8Array<ArrayBuffer> {
  const files = [...texts].map(([name, text]) => [name, strToU8(text)] as const);
  // A zip keeps a local time without its zone: noon is the same day wherever it is opened.
  return zipSync(Object.fromEntries(files), { mtime: `${day}T12:00:00` });
}
