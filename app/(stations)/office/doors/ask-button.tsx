'use client';

import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { Act } from '#app/ui/form.tsx';
import { ask } from '#app/ui/requests.ts';

interface AskButtonProps {
  readonly words: string;
  /** What it is about, for those who hear the page. */
  readonly about?: string;
  readonly path: '/api/sign-out' | '/api/office/laptops' | '/api/office/hall';
  readonly body: object;
}

/** One press; where a code comes back it is shown, and where something was refused, why. */
export function AskButton({ words, about, path, body }: AskButtonProps) {
  const router = useRouter();
  const [said, setSaid] = useState('');
  const press = async () => {
    const answer = await ask<{ readonly code?: string; readonly minutes?: number }>(path, 'sign-in', body);
    if (!answer.ok) return setSaid(answer.message);
    setSaid(answer.code ? `${answer.code} (good once, for ${answer.minutes} minutes)` : '');
    router.refresh();
  };
  return (
    <>
      <Act words={words} act={press} {...(about && { about })} />
      <output>{said}</output>
    </>
  );
}
