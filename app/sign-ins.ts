import 'server-only';
import type { Book } from '#db/open.ts';
import { openStore, type Store, storeInMemory } from '#db/signing-in/store.ts';
import { type TroubleKind, troubleOfWriting } from '#db/trouble.ts';
import { house } from './house.ts';

interface Open {
  readonly store: Store;
  readonly inMemory: boolean;
}

/** The open file of sign-ins of this process; on `globalThis` for the same reason as the book. */
const place = globalThis as typeof globalThis & { peltrySignIns?: Open };

/** With these nothing can be written beside the book either. */
const WITHOUT_DISK: ReadonlySet<TroubleKind> = new Set<TroubleKind>(['full', 'read_only', 'disk']);

/** The sign-ins: in their file, or in memory while the disk takes nothing, so that the staff can still read. */
export function signInsOf({ file }: Book): Store {
  const { trouble } = house();
  const inMemory = trouble !== null && WITHOUT_DISK.has(trouble.kind);
  const before = place.peltrySignIns;
  if (before?.inMemory === inMemory) return before.store;
  const store = inMemory ? storeInMemory(file) : openStore(file);
  before?.store.close();
  place.peltrySignIns = { store, inMemory };
  return store;
}

/** Does something that writes to the sign-ins. Where the disk fails at it, writing stops, and it is done in memory. */
export async function withSignIns<T>(book: Book, work: (store: Store) => T | Promise<T>): Promise<T> {
  try {
    return await work(signInsOf(book));
  } catch (fault) {
    const trouble = troubleOfWriting(fault);
    if (!trouble || house().trouble) throw fault;
    house().trouble = trouble;
    return work(signInsOf(book));
  }
}

/**
 * The same in one go, so that no other request comes between: for what must follow on an entry of the book at once.
 */
export function withSignInsNow<T>(book: Book, work: (store: Store) => T): T {
  try {
    return work(signInsOf(book));
  } catch (fault) {
    const trouble = troubleOfWriting(fault);
    if (!trouble || house().trouble) throw fault;
    house().trouble = trouble;
    return work(signInsOf(book));
  }
}
