import './help.css';
import type { ReactNode } from 'react';
import { PublicFrame } from '#app/(hall)/hall-frame.tsx';

const WAYS = [
  { path: '/help', name: 'All guides' },
  { path: '/', name: 'The stations' },
] as const;

/** The frame of the guides. Nothing of a sale stands on them: whoever is in the hall may read them. */
export function HelpFrame({ children }: { readonly children: ReactNode }) {
  return (
    <PublicFrame name="Help" words="Read here without internet" skip="Go to the guide" label="Guides" ways={WAYS}>
      {children}
    </PublicFrame>
  );
}
