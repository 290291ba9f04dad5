import { timeZoneOf } from '#db/sale/queries.ts';
import { listedMoment, momentInWords } from '#lib/date/date.ts';
import { theBook } from './book.ts';

/** An instant by the association's clock, not by the reader's: the day is left out where it is today, unless `dated`. */
export async function Moment({ at, dated = false }: { readonly at: string; readonly dated?: boolean }) {
  const zone = timeZoneOf(await theBook());
  const words = dated ? momentInWords(at, zone) : listedMoment(at, new Date().toISOString(), zone);
  return <time dateTime={at}>{words}</time>;
}
