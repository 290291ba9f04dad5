import 'server-only';
import { openStore, type Store } from '#db/signing-in/store.ts';
import { theBook } from './book.ts';

/** The open file of sign-ins of this process; on `globalThis` for the same reason as the book. */
const place = globalThis as typeof globalThis & { peltrySignIns?: Store };

export async function theSignIns(): Promise<Store> {
  const { file } = await theBook();
  place.peltrySignIns ??= openStore(file);
  return place.peltrySignIns;
}
