import 'server-only';
import { headers } from 'next/headers';
import { bookNow } from '#app/server/state.ts';
import { networkSaid } from '#db/worker/queries.ts';
import { hostOf } from '#lib/network/hosts.ts';
import { Mark } from './marks.tsx';

/** The way to the encrypted line, where the server has one; otherwise what the office can do. */
export async function SecureLink({ path }: { readonly path: string }) {
  const host = hostOf((await headers()).get('host'));
  const port = process.env.PELTRY_SECURE_PORT;
  if (port === undefined || host === undefined) {
    return (
      <p>
        This line is not encrypted, and everybody in the hall could read along. The office makes a certificate, or says
        at the machine itself that this is to be borne.
      </p>
    );
  }
  const address = `https://${host}:${port}${path}`;
  return (
    <>
      <p>This line is not encrypted, and everybody in the hall could read along. Go on over the encrypted one:</p>
      <p className="acts">
        <a className="button act" href={address}>
          {address}
        </a>
      </p>
      <p>
        If the browser warns of it, this device does not know our certificate yet:{' '}
        <a href="/join">make this device ready</a>.
      </p>
    </>
  );
}

/** Stands on every screen of the staff while the office lets them work on an open line: nobody is to forget it. */
export function OpenLineMark() {
  const book = bookNow();
  if (!book || !networkSaid(book).plainStaff) return null;
  return (
    <p className="small open-line">
      <Mark tone="stop">Open line: not encrypted</Mark>
    </p>
  );
}
