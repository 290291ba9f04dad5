import { troubleNow } from '#app/house.ts';
import { lineDrawnAt } from '#app/line-drawn-at.ts';
import { LiveRefresh } from './live-refresh.tsx';

/** Has the page read its figures anew whenever the book's log has grown since they were read, or is not written to. */
export async function Live() {
  return <LiveRefresh line={await lineDrawnAt()} stopped={troubleNow() !== null} />;
}
