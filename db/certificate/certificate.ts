import 'reflect-metadata';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { AsnConvert } from '@peculiar/asn1-schema';
import { GeneralName, GeneralSubtree, GeneralSubtrees, NameConstraints } from '@peculiar/asn1-x509';
import * as x509 from '@peculiar/x509';
import type { Book } from '#db/book/open.ts';
import { dayIn, theAssociation } from '#db/sale/queries.ts';
import { accept, type Result } from '#lib/result/result.ts';
import {
  certificateFile,
  certificateFolder,
  type Holder,
  type HostEntry,
  keyFile,
  namesOf,
  permitted,
  within,
} from './names.ts';

export interface Made {
  readonly names: readonly string[];
  /** ISO 8601 date on which the server's certificate ends. */
  readonly endsOn: string;
  /** Whether the authority is new, so that phones must take it anew. */
  readonly newAuthority: boolean;
}

/**
 * Makes the server's certificate for the names of today, by the authority that is there or by a new one.
 * Refused where the authority that is there may not vouch for one of the names.
 */
export async function makeCertificate(book: Book, now: Date): Promise<Result<Made>> {
  const wanted = namesOf(book);
  const known = await readPair(book.file, 'authority');
  const authority =
    known ??
    (await makeAuthority(theAssociation(book)?.name ?? 'Peltry', permitted([...wanted.own, ...wanted.said]), now));
  const names = within(wanted, boundsOf(authority.certificate));
  if (!names.ok) return names;
  const server = await makeServerCertificate(authority, names.value, now);
  if (!known) await writePair(book.file, 'authority', authority);
  await writePair(book.file, 'server', server);
  const endsOn = dayIn(book, server.certificate.notAfter.toISOString());
  return accept({ names: names.value.map(({ value }) => value), endsOn, newAuthority: !known });
}

/** P-256 with SHA-256: known to every browser and phone in use, and small. */
const ALGORITHM = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' } as const;
const NAME_CONSTRAINTS = '2.5.29.30';
const YEARS = 10;
/** A laptop or a phone whose battery was empty may think itself years back. */
const YEARS_BACK = 5;
const DAY_MS = 86_400_000;

/** A certificate with its key: of the association's small authority, or of this machine, for which alone it vouches. */
interface Authority {
  readonly certificate: x509.X509Certificate;
  readonly key: CryptoKey;
}

/** Makes an authority that may vouch for `bounds` only (RFC 5280, 4.2.1.10), for ten years. */
export async function makeAuthority(association: string, bounds: readonly HostEntry[], now: Date): Promise<Authority> {
  const keys = await crypto.subtle.generateKey(ALGORITHM, true, ['sign', 'verify']);
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serial(),
    name: distinguished(`${association}: own certificates`),
    notBefore: new Date(now.getTime() - YEARS_BACK * 365 * DAY_MS),
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

function distinguished(commonName: string): x509.JsonName {
  // RFC 5280, appendix A.1: a common name has 64 characters at most.
  return [{ CN: [commonName.slice(0, 64)] }];
}

/** RFC 5280, 4.1.2.2: positive, at most 20 octets, and here 16 of them by chance. */
function serial(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return `01${Buffer.from(bytes).toString('hex')}`;
}

/**
 * A year and a half month to either side. What phones take of an authority of one's own spans 825 days at most; what is
 * behind today lets a phone in whose clock is a year slow.
 */
const DAYS = 410;

/** The certificate with which the server shows the staff's browsers that it is the association's own machine. */
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
    notBefore: new Date(Math.max(now.getTime() - DAYS * DAY_MS, issuer.notBefore.getTime())),
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

/** Reads a certificate and its key; undefined where there is none. */
async function readPair(bookFile: string, holder: Holder): Promise<Authority | undefined> {
  const [pem, key] = [certificateFile(bookFile, holder), keyFile(bookFile, holder)];
  if (!existsSync(pem) || !existsSync(key)) return undefined;
  const der = x509.PemConverter.decodeFirst(readFileSync(key, 'utf8'));
  return {
    certificate: new x509.X509Certificate(readFileSync(pem, 'utf8')),
    key: await crypto.subtle.importKey('pkcs8', der, ALGORITHM, false, ['sign']),
  };
}

/** Writes both, the key for its owner's eyes only. Each is written beside its place first and then moved there. */
export async function writePair(bookFile: string, holder: Holder, { certificate, key }: Authority): Promise<void> {
  mkdirSync(certificateFolder(bookFile), { recursive: true, mode: 0o700 });
  const secret = x509.PemConverter.encode(await crypto.subtle.exportKey('pkcs8', key), 'PRIVATE KEY');
  put(keyFile(bookFile, holder), secret, 0o600);
  put(certificateFile(bookFile, holder), certificate.toString('pem'), 0o644);
}

function put(file: string, text: string, mode: number): void {
  writeFileSync(`${file}.new`, `${text}\n`, { mode });
  renameSync(`${file}.new`, file);
}
