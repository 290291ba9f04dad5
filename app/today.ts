import 'server-only';
import type { Book } from '#db/open.ts';
import { dayIn } from '#db/queries/local-days.ts';

/** The day where the association is: an evening sale is not tomorrow's because it is past midnight in UTC. */
export function today(book: Book): string {
  return dayIn(book, new Date().toISOString());
}
