/** How each kind of device takes the authority's certificate. The names of menus differ by version and are from memory. */
export const DEVICES = [
  {
    name: 'Android',
    known: /Android/,
    steps: [
      'Press Download on the page of the card. The file goes to Downloads.',
      'Open Settings and search for “CA certificate” (Security, More settings, Install a certificate).',
      'Choose CA certificate, Install anyway, and the file peltry-authority.crt. Android warns that the network may be watched: this certificate is good for addresses of this network only.',
    ],
  },
  {
    name: 'iPhone or iPad',
    known: /iPhone|iPad/,
    steps: [
      'Open the page of the card in Safari, press Download, and allow the profile.',
      'Settings, General, VPN & Device Management: install the profile.',
      'Settings, General, About, Certificate Trust Settings: switch it on.',
    ],
  },
  {
    name: 'Windows',
    known: /Windows/,
    steps: [
      'Press Download on the page of the card, and open the file.',
      'Install Certificate, Current User, Place all certificates in the following store, Trusted Root Certification Authorities.',
      'Close the browser and open it again.',
    ],
  },
  {
    name: 'Mac',
    known: /Macintosh/,
    steps: [
      'Press Download on the page of the card, and open the file: Keychain Access takes it.',
      'Find it there, open it, and under Trust choose Always Trust.',
    ],
  },
  {
    name: 'Linux or Chromebook',
    known: /Linux|CrOS|X11/,
    steps: [
      'Press Download on the page of the card.',
      'In the browser: Settings, search for “certificates”, Authorities, Import, trust it for web sites.',
    ],
  },
] as const;

/** Firefox keeps a list of its own on every computer. */
export const FIREFOX = 'Settings, search for “certificates”, Authorities, Import, trust it for web sites.';

/** The kind of a device by what its browser calls itself; the last where nothing is known. */
export function deviceOf(userAgent: string): (typeof DEVICES)[number]['name'] {
  return DEVICES.find(({ known }) => known.test(userAgent))?.name ?? 'Linux or Chromebook';
}
