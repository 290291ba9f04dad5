import type { Metadata, Viewport } from 'next';
import type { ReactNode } from 'react';
import './ui/look.css';

export const metadata: Metadata = { title: { default: 'Peltry', template: '%s · Peltry' } };
export const viewport: Viewport = { width: 'device-width', initialScale: 1 };

/** Set before the first paint, so that a dark barn is not lit up by a white flash. */
const THEME = `try{var t=localStorage.getItem('peltry-theme');if(t)document.documentElement.dataset.theme=t}catch(e){}`;

export default function Layout({ children }: { readonly children: ReactNode }) {
  return (
    <html lang="en" suppressHydrationWarning>
      <head>
        {/* biome-ignore lint/security/noDangerouslySetInnerHtml: A constant of ours, needed before anything is drawn. */}
        <script dangerouslySetInnerHTML={{ __html: THEME }} />
      </head>
      <body>{children}</body>
    </html>
  );
}
