import 'server-only';
import Link from 'next/link';
import { signedIn } from '#app/caller.ts';

/** Who is signed in on this device, and the way to sign out; before there are workers, the way to enter them. */
export async function WhoIsHere() {
  const worker = await signedIn();
  return (
    <p className="small">
      <Link href="/office/workers" prefetch={false}>
        {worker ? worker.name : 'Workers'}
      </Link>
    </p>
  );
}
