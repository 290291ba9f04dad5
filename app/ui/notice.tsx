import type { ReactNode } from 'react';

interface NoticeProps {
  readonly kind: 'stop' | 'wait' | 'done' | 'plain';
  readonly title: string;
  readonly children?: ReactNode;
}

/** Something the person must read: what was refused and what to do, or what was done. */
export function Notice({ kind, title, children }: NoticeProps) {
  return (
    <div className="notice" data-kind={kind} role={kind === 'stop' ? 'alert' : 'status'}>
      <p>
        <strong>{title}</strong>
      </p>
      {children}
    </div>
  );
}
