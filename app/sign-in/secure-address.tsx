import { SecureLink } from '#app/ui/secure-link.tsx';
import type { Refusal } from '#lib/result.ts';

interface SecureAddressProps {
  readonly refusal: Refusal;
  readonly host: string | undefined;
}

/** In the place of the form, where a passphrase would travel in the open. */
export function SecureAddress({ refusal, host }: SecureAddressProps) {
  return (
    <main id="main" className="page">
      <section className="sheet">
        <h1>Sign in on the encrypted line</h1>
        {refusal.code === 'open_line' ? <SecureLink host={host} path="/sign-in" /> : <p>{refusal.message}</p>}
        <p className="acts">
          <a href="/help/network">The hall's network, and the certificate on a phone</a>
        </p>
      </section>
    </main>
  );
}
