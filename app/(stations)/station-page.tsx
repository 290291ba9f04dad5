import type { ComponentProps, ReactNode } from 'react';
import type { SearchParams } from '#app/request/page-context.ts';
import { Masthead } from '#app/ui/masthead.tsx';

/** What Next gives a page whose address has one part that varies. */
export interface PageProps<K extends string> {
  readonly params: Promise<Record<K, string>>;
  readonly searchParams: SearchParams;
}

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
