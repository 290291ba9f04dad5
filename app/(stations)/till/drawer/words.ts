import type { DrawerKind } from '#lib/drawer/drawer.ts';

/** What can be done with an open drawer, as the person says it. */
export const ACTS = [
  { kind: 'counted', words: 'Count it', act: 'Record the count' },
  { kind: 'added', words: 'Put money in', act: 'Record what was put in' },
  { kind: 'taken', words: 'Take money out', act: 'Record what was taken out' },
  { kind: 'closed', words: 'Count and close it', act: 'Close the drawer' },
] as const;

export const OPEN = { kind: 'opened', act: 'Open the drawer' } as const;

export const DONE: Readonly<Record<DrawerKind, string>> = {
  opened: 'opened with',
  added: 'put in',
  taken: 'taken out',
  counted: 'counted',
  closed: 'closed with',
};
