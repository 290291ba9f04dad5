import type { ComponentProps, ReactNode } from 'react';
import { Masthead } from '#app/ui/masthead.tsx';

interface StationPageProps extends ComponentProps<typeof Masthead> {
  readonly className?: string;
  readonly children: ReactNode;
}

/**
 * A page of a station: the masthead, and what is worked with under it. It stands apart from the frame with ways between
 * pages, whose link code the Block's browser does not need.
 */
export function StationPage({ className = 'page', children, ...masthead }: StationPageProps) {
  return (
    <>
      <Masthead {...masthead} />
      <main id="main" className={className}>
        {children}
      </main>
    </>
  );
}
