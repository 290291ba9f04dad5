import type { ReactNode } from 'react';

interface PrintLinkProps {
  readonly href: string;
  readonly children: ReactNode;
}

/** A paper, opened beside the page so that nothing typed here is lost; the browser prints it from there. */
export function PrintLink({ href, children }: PrintLinkProps) {
  return (
    <a className="button" href={href} target="_blank" rel="noopener">
      {children}
      <span className="visually-hidden"> (a PDF in a new window)</span>
    </a>
  );
}
