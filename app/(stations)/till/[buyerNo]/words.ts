import type { Method } from '#lib/facts.ts';

export const METHODS: Readonly<Record<Method, string>> = { cash: 'Cash', check: 'Check', card: 'Card', other: 'Other' };
