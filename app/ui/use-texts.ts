'use client';

import { useState } from 'react';

/** What is typed into the text fields of a form: `field('name')` gives a field its value, refusal and handler. */
export function useTexts<K extends string>(
  first: Readonly<Record<K, string>>,
  errorOf?: (field: string) => string | undefined,
  onTyped?: () => void,
) {
  const [texts, setTexts] = useState(first);
  const set = (over: Partial<Record<K, string>>) => {
    setTexts((now) => ({ ...now, ...over }));
    onTyped?.();
  };
  const field = (name: K) => ({
    value: texts[name],
    error: errorOf?.(name),
    onChange: ({ target }: { readonly target: { readonly value: string } }) => {
      setTexts((now) => ({ ...now, [name]: target.value }));
      onTyped?.();
    },
  });
  return { texts, set, field, reset: () => setTexts(first) };
}
