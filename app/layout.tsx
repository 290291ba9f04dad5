import '#app/ui/styles/themes.css';
import type { Metadata, Viewport } from 'next';
import { headers } from 'next/headers';
import type { ReactNode } from 'react';

export const metadata: Metadata = { title: { default: 'Peltry', template: '%s · Peltry' } };
export const viewport: Viewport = { width: 'device-width', initialScale: 1 };

/** Set before the first paint, so that a dark barn is not lit up by a white flash. */
const THEME = `try{var t=localStorage.getItem('peltry-theme');if(t)document.documentElement.dataset.theme=t}catch(e){}`;

export default async function Layout({ children }: { readonly children: ReactNode }) {
  // The server's gate draws it anew for each answer; a script without it is not run.
  const nonce = /'nonce-([^']+)'/.exec((await headers()).get('content-security-policy') ?? '')?.[1];
  return (
    <html lang="en" suppressHydrationWarning>
      <head>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: A constant of ours, needed before anything is drawn. */}
        <script nonce={nonce} suppressHydrationWarning dangerouslySetInnerHTML={{ __html: THEME }} />
      </head>
      <body>{children}</body>
    </html>
  );
}
