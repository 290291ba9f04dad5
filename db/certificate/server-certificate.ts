/** The certificate with which the server shows the staff's browsers that it is the association's own machine. */
import * as x509 from '@peculiar/x509';
import { ALGORITHM, type Authority, distinguished, serial } from './authority.ts';
import type { HostEntry } from './names.ts';

/** A season and a month. What phones take of an authority of one's own ends at 825 days at the latest. */
const DAYS = 397;
const DAY_MS = 86_400_000;

export async function makeServerCertificate(
  { certificate: issuer, key: signingKey }: Authority,
  names: readonly HostEntry[],
  now: Date,
): Promise<Authority> {
  const keys = await crypto.subtle.generateKey(ALGORITHM, true, ['sign', 'verify']);
  const ends = Math.min(now.getTime() + DAYS * DAY_MS, issuer.notAfter.getTime());
  const certificate = await x509.X509CertificateGenerator.create({
    serialNumber: serial(),
    subject: distinguished('This machine'),
    issuer: issuer.subject,
    notBefore: new Date(now.getTime() - DAY_MS),
    notAfter: new Date(ends),
    signingAlgorithm: ALGORITHM,
    publicKey: keys.publicKey,
    signingKey,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension(names.map(({ type, value }) => ({ type, value }))),
      await x509.AuthorityKeyIdentifierExtension.create(issuer),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  return { certificate, key: keys.privateKey };
}
