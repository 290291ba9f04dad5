import { lineDrawnAt } from '#app/request/book.ts';
import { troubleNow } from '#app/server/state.ts';
import { LiveRefresh } from './live-refresh.tsx';

/** Has the page read its figures anew whenever the book's log has grown since they were read, or is not written to. */
export async function Live() {
  return <LiveRefresh line={await lineDrawnAt()} stopped={troubleNow() !== null} />;
}
