import 'server-only';
import { signedIn } from '#app/caller.ts';

/** Who is signed in on this device, and the way to sign out; before there are workers, the way to enter them. */
export async function WhoIsHere() {
  const worker = await signedIn();
  return (
    <p className="small who-is-here">
      <a href="/office/workers">{worker ? worker.name : 'Workers'}</a>
    </p>
  );
}
