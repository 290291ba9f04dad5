/**
 * What is worked out of a whole sale in pieces and kept. Of a large sale a piece takes some milliseconds, so that it can
 * be made ready beside everything else, and after an entry only what the entry touched is worked out anew. For screens
 * only, and in memory only: the facts stand in the book.
 */
import type { Book } from '../open.ts';
import { type Looked, lookNow, type Touched, touchedSince } from '../touched.ts';

export interface InPieces<S> {
  /** Under which it is kept. */
  readonly name: string;
  /** What all pieces rest on, as a text: under another one everything is worked out anew. */
  readonly key: string;
  readonly begin: () => S;
  /** Notes what of it has to be worked out anew; false where to begin again is less work. */
  readonly renew: (state: S, touched: Touched) => boolean;
  /** Works out the next piece; false where there is none left. */
  readonly next: (state: S) => boolean;
}

interface Kept<S> {
  readonly key: string;
  readonly state: S;
  /** Whatever was touched after this is not noted yet. */
  looked: Looked;
}

/** All of it as it is now. Nobody may change it. */
export function wholeOf<S>(book: Book, pieces: InPieces<S>): S {
  for (;;) {
    const state = readOn(book, pieces);
    if (state !== undefined) return state;
  }
}

/** Works out one piece more, and gives all of it where there was none left. */
export function readOn<S>(book: Book, pieces: InPieces<S>): S | undefined {
  const { state } = keptNow(book, pieces);
  return pieces.next(state) ? undefined : state;
}

/** What is kept, with everything noted that was touched since, or a new beginning. */
function keptNow<S>(book: Book, { name, key, begin, renew }: InPieces<S>): Kept<S> {
  const place = book.prepared(`pieces: ${name}`, (): { kept?: Kept<S> } => ({}));
  const looked = lookNow(book);
  const touched = place.kept?.key === key ? touchedSince(book, place.kept.looked) : null;
  if (place.kept && touched !== null && renew(place.kept.state, touched)) place.kept.looked = looked;
  else place.kept = { key, state: begin(), looked };
  return place.kept;
}
