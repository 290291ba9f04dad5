// The programs the tests judge our work with: none is needed to run a sale.
import { existsSync } from 'node:fs';
import { aptInstall, canApt } from './apt.mjs';
import { which } from './shell.mjs';

// The first is the same engine without the windows of its own, which nobody looks at here: the quickest to open a page.
const CHROMIUMS = [
  ...['chromium-headless-shell', 'chromium', 'chromium-browser'],
  ...['google-chrome-stable', 'google-chrome'],
];

/** Each program: how to see that it is here, the Debian package it comes in, and what it is for. */
export const NEEDS = [
  {
    name: 'chromium',
    here: () => chromium() !== null,
    debian: 'chromium-headless-shell',
    why: 'drives every screen as a person does',
  },
  { name: 'pdftotext', here: () => which('pdftotext'), debian: 'poppler-utils', why: 'reads the printed papers back' },
  {
    name: 'hledger',
    here: () => which('hledger'),
    debian: 'hledger',
    why: 'adds up the exported journal a second time',
  },
  { name: 'zbarimg', here: () => which('zbarimg'), debian: 'zbar-tools', why: 'scans the printed bar codes' },
  { name: 'strace', here: () => which('strace'), debian: 'strace', why: 'has single calls to the disk fail' },
  { name: 'openssl', here: () => which('openssl'), debian: 'openssl', why: 'verifies the certificates' },
  {
    name: 'time zones',
    here: () => existsSync('/usr/share/zoneinfo/America/Denver'),
    debian: 'tzdata',
    why: 'says the day of an instant a second time',
  },
  { name: 'qpdf', here: () => which('qpdf'), debian: 'qpdf', why: 'checks that each PDF is well formed' },
];

/** The browser's path: CHROME_PATH if that names a file, else the first found on PATH, else null. */
export function chromium() {
  const named = process.env.CHROME_PATH;
  if (named && existsSync(named)) return named;
  for (const name of CHROMIUMS) {
    const path = which(name);
    if (path) return path;
  }
  return null;
}

const missing = () => NEEDS.filter((need) => !need.here());

/** Brings what is missing where apt-get can, else says exactly what to install. Gives true when nothing is missing. */
export async function ensurePrograms() {
  const wanted = missing().map((need) => need.debian);
  if (wanted.length > 0 && canApt()) {
    console.log(`Installing ${wanted.join(' ')}`);
    await aptInstall(wanted);
  }
  const still = missing();
  if (still.length === 0) return true;
  console.log('These programs are missing:');
  for (const need of still) console.log(`  ${need.name} (${need.why}); in Debian: ${need.debian}`);
  console.log(`On Debian or Ubuntu, as root: apt-get install ${still.map((need) => need.debian).join(' ')}`);
  if (still.some((need) => need.name === 'chromium')) console.log('Elsewhere set CHROME_PATH to a Chromium or Chrome.');
  return false;
}
