/** The small authority of one association: it vouches for this machine, and by its own constraints for nothing public. */
import 'reflect-metadata';
import { AsnConvert } from '@peculiar/asn1-schema';
import { GeneralName, GeneralSubtree, GeneralSubtrees, NameConstraints } from '@peculiar/asn1-x509';
import * as x509 from '@peculiar/x509';
import type { HostEntry } from './names.ts';

/** P-256 with SHA-256: known to every browser and phone in use, and small. */
export const ALGORITHM = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' } as const;
const NAME_CONSTRAINTS = '2.5.29.30';
const YEARS = 10;
const DAY_MS = 86_400_000;

export interface Authority {
  readonly certificate: x509.X509Certificate;
  readonly key: CryptoKey;
}

/** Makes an authority that may vouch for `bounds` only (RFC 5280, 4.2.1.10), for ten years. */
export async function makeAuthority(association: string, bounds: readonly HostEntry[], now: Date): Promise<Authority> {
  const keys = await crypto.subtle.generateKey(ALGORITHM, true, ['sign', 'verify']);
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serial(),
    name: distinguished(`${association}: own certificates`),
    notBefore: new Date(now.getTime() - DAY_MS),
    notAfter: new Date(now.getTime() + YEARS * 365 * DAY_MS),
    signingAlgorithm: ALGORITHM,
    keys,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      new x509.Extension(NAME_CONSTRAINTS, true, constraintsOf(bounds)),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  return { certificate, key: keys.privateKey };
}

/** What this authority may vouch for. */
export function boundsOf(certificate: x509.X509Certificate): HostEntry[] {
  const extension = certificate.getExtension(NAME_CONSTRAINTS);
  if (!extension) return [];
  const { permittedSubtrees } = AsnConvert.parse(extension.value, NameConstraints);
  return [...(permittedSubtrees ?? [])].flatMap(({ base }): HostEntry[] => {
    if (base.dNSName !== undefined) return [{ type: 'dns', value: base.dNSName }];
    return base.iPAddress === undefined ? [] : [{ type: 'ip', value: base.iPAddress }];
  });
}

function constraintsOf(bounds: readonly HostEntry[]): ArrayBuffer {
  const subtrees = bounds.map(({ type, value }) => {
    const base = new GeneralName(type === 'dns' ? { dNSName: value } : { iPAddress: value });
    return new GeneralSubtree({ base });
  });
  return AsnConvert.serialize(new NameConstraints({ permittedSubtrees: new GeneralSubtrees(subtrees) }));
}

export function distinguished(commonName: string): x509.JsonName {
  // RFC 5280, appendix A.1: a common name has 64 characters at most.
  return [{ CN: [commonName.slice(0, 64)] }];
}

/** RFC 5280, 4.1.2.2: positive, at most 20 octets, and here 16 of them by chance. */
export function serial(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return `01${Buffer.from(bytes).toString('hex')}`;
}
