import { lineDrawnAt } from '#app/request/book.ts';
import { signedIn } from '#app/request/caller.ts';
import { troubleNow } from '#app/server/state.ts';
import { LiveRefresh } from './live-refresh.tsx';
import { KeepTyped } from './typed/keep-typed.tsx';

/** Has the page read its figures anew whenever the book's log has grown since they were read, or is not written to. */
export async function Live() {
  const worker = (await signedIn())?.name ?? '';
  return (
    <>
      <LiveRefresh line={await lineDrawnAt()} stopped={troubleNow() !== null} worker={worker} />
      <KeepTyped worker={worker} />
    </>
  );
}

/** The same for a page that is not read anew: what is half typed is kept over a sign-in. */
export async function StillTyped() {
  return <KeepTyped worker={(await signedIn())?.name ?? ''} />;
}
